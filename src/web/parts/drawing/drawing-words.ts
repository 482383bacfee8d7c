import type { Language } from '#app/words/index.js';
import { PAGE_LANGUAGE } from '../language.js';
import { type DrawnStation, LEAST_SHOWN, type NodeFacts, type ShownMark } from './drawn-facts.js';
import { DRAWING_EN, type DrawingSentences } from './words-en.js';
import { DRAWING_ES } from './words-es.js';
import { DRAWING_FR } from './words-fr.js';
import { DRAWING_HI } from './words-hi.js';

const WORDS: Readonly<Record<Language, DrawingSentences>> = {
  en: DRAWING_EN,
  es: DRAWING_ES,
  hi: DRAWING_HI,
  fr: DRAWING_FR,
};

export const DRAWING_WORDS = WORDS[PAGE_LANGUAGE];

const { marks, functions } = DRAWING_WORDS;

export const LEGEND: readonly {
  mark: ShownMark | 'box' | 'out' | 'expected' | 'doubted';
  words: string;
}[] = [
  { mark: 'works', words: marks.works },
  { mark: 'fails', words: marks.fails },
  { mark: 'weak', words: marks.weak },
  { mark: 'unsaid', words: marks.unsaid },
  { mark: 'expected', words: DRAWING_WORDS.expectedMark },
  { mark: 'box', words: DRAWING_WORDS.box },
  { mark: 'out', words: DRAWING_WORDS.out },
  { mark: 'doubted', words: DRAWING_WORDS.doubted },
];

export function stationName({ room, node, kind }: DrawnStation): string {
  return (
    room ?? (kind === 'junction-box' ? DRAWING_WORDS.junctionBox(node) : DRAWING_WORDS.unit(node))
  );
}

/** "83 %", "<1 %" where there is a little, "" where there is nothing. */
export function percent(chance: number): string {
  const whole = Math.round(chance * 100);
  if (whole >= 1) return `${whole} %`;
  return chance > 0 ? '<1 %' : '';
}

/** A node as it is read out: "Room 12: silent. Cable into it 42 %." `more`: what else is said of it. */
export function nodeInWords(
  station: DrawnStation,
  facts: NodeFacts,
  more: readonly string[] = [],
): string {
  const said = station.isOut
    ? DRAWING_WORDS.out
    : facts.functions.length > 0
      ? facts.functions
          .map(({ name, outcome }) => `${functions[name]} ${marks[outcome]}`)
          .join(', ')
      : facts.mark === 'unsaid' && station.kind === 'junction-box'
        ? ''
        : marks[facts.mark];
  const expected =
    facts.expected === null ? '' : `, ${DRAWING_WORDS.expected(marks[facts.expected])}`;
  const own = ownInWords(facts);
  const name = `${stationName(station)}${own && ` ${own}`}`;
  const cable =
    facts.spanChance >= 0.01 ? ` ${DRAWING_WORDS.cableInto(percent(facts.spanChance))}` : '';
  const { groups = [] } = station;
  const [group = ''] = groups;
  const isIn =
    groups.length > 1 ? DRAWING_WORDS.inGroups(groups.join(', ')) : DRAWING_WORDS.inGroup(group);
  const besides = [...(groups.length === 0 ? [] : [isIn]), ...more]
    .map((one) => ` ${one}`)
    .join('');
  return `${name}${said && `: ${said}`}${expected}.${cable}${besides}`;
}

/** That something of the node's own is suspected; as it stands below its name. */
export function ownInWords({ ownChance }: NodeFacts): string {
  return ownChance >= LEAST_SHOWN ? DRAWING_WORDS.itself(percent(ownChance)) : '';
}
