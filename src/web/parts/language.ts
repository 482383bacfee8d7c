import {
  chooseLanguage,
  type Language,
  LANGUAGES,
  pageWordsIn,
  wordsIn,
} from '#app/words/index.js';
import { keepIn } from './kept.js';

const CHOSEN = 'language';
const kept = keepIn(() => localStorage);

/** What the page is written in: the language that was chosen on it, else the one that the browser asks for. */
export const PAGE_LANGUAGE: Language =
  LANGUAGES.find((own) => own === kept.read<string>(CHOSEN)) ?? chooseLanguage(asked());

/** By which days and hours are written. */
export const PAGE_LOCALE = PAGE_LANGUAGE === 'en' ? 'en-GB' : PAGE_LANGUAGE;

/** Lists, numbers and plurals as the page's language writes them. */
export const PAGE_FORMATS = wordsIn(PAGE_LANGUAGE).formats;

export const PAGE_WORDS = pageWordsIn(PAGE_LANGUAGE);

/** Kept over sittings; what is shown changes when the page is loaded anew. */
export function keepLanguage(language: Language): void {
  kept.write(CHOSEN, language);
}

/**
 * Takes over the language that somebody chose elsewhere. True: the page is to be loaded anew, to be written in it; never
 * where the browser keeps nothing, which would go on for ever.
 */
export function adoptLanguage(chosen: Language | null): boolean {
  if (chosen === null || chosen === PAGE_LANGUAGE) return false;
  keepLanguage(chosen);
  return keepIn(() => localStorage).read<string>(CHOSEN) === chosen;
}

/** Says in which language the page is, and what it is called. */
export function titlePage(title: string): void {
  document.documentElement.lang = PAGE_LANGUAGE;
  document.title = title;
}

function asked(): string {
  return typeof navigator === 'undefined' ? '' : navigator.languages.join(',');
}
