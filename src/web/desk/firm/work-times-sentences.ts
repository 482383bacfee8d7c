import { PAGE_LOCALE } from '../../parts/language.js';
import type { ReadWorkTimes } from '../../parts/wire.js';
import { WORK_TIMES_WORDS } from '../words/words.js';

type WorkTimeItem = ReadWorkTimes['items'][number];

const figure = new Intl.NumberFormat(PAGE_LOCALE, { maximumFractionDigits: 1 });
const share = new Intl.NumberFormat(PAGE_LOCALE, { style: 'percent' });

/** By how many minutes plans go, and where they are from. */
export function goesByInWords(item: WorkTimeItem, visits: number): string {
  const { own, learned, usual } = WORK_TIMES_WORDS.goesBy;
  const usually = figure.format(item.usualMinutes);
  if (item.from === 'own') return own(usually);
  if (item.from === 'usual') return usual(usually);
  return learned(figure.format(item.minutes), usually, visits);
}

/** The same for whoever cannot change it. */
export function saidInWords(item: WorkTimeItem, visits: number): string {
  const isOwn = item.from === 'own';
  return isOwn ? WORK_TIMES_WORDS.said(figure.format(item.minutes)) : goesByInWords(item, visits);
}

export function paceInWords({ paceFactor, paceVisits }: ReadWorkTimes): string {
  const { pace, nothingLearned } = WORK_TIMES_WORDS;
  return paceVisits === 0 ? nothingLearned : pace(share.format(paceFactor), paceVisits);
}
