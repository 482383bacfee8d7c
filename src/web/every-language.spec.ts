import { describe, expect, it } from '@jest/globals';
import type { Language } from '#app/words/index.js';
import { DESK_IN_EN as DESK_EN } from './desk/words/words-en.js';
import { DESK_IN_ES as DESK_ES } from './desk/words/words-es.js';
import { DESK_IN_FR as DESK_FR } from './desk/words/words-fr.js';
import { DESK_IN_HI as DESK_HI } from './desk/words/words-hi.js';
import { FIELD_EN } from './field/words-en.js';
import { FIELD_ES } from './field/words-es.js';
import { FIELD_FR } from './field/words-fr.js';
import { FIELD_HI } from './field/words-hi.js';
import { DRAWING_EN } from './parts/drawing/words-en.js';
import { DRAWING_ES } from './parts/drawing/words-es.js';
import { DRAWING_FR } from './parts/drawing/words-fr.js';
import { DRAWING_HI } from './parts/drawing/words-hi.js';
import { SIGN_IN_EN } from './sign-in/words-en.js';
import { SIGN_IN_ES } from './sign-in/words-es.js';
import { SIGN_IN_FR } from './sign-in/words-fr.js';
import { SIGN_IN_HI } from './sign-in/words-hi.js';

/** What the pages say by themselves, by place. That no sentence is missing is the compiler's to see. */
const PLACES: Readonly<Record<string, Readonly<Record<Language, object>>>> = {
  desk: { en: DESK_EN, es: DESK_ES, fr: DESK_FR, hi: DESK_HI },
  drawing: { en: DRAWING_EN, es: DRAWING_ES, fr: DRAWING_FR, hi: DRAWING_HI },
  field: { en: FIELD_EN, es: FIELD_ES, fr: FIELD_FR, hi: FIELD_HI },
  'sign-in': { en: SIGN_IN_EN, es: SIGN_IN_ES, fr: SIGN_IN_FR, hi: SIGN_IN_HI },
};

/** Sentences that are the same as in English, and why. */
const THE_SAME: Readonly<Record<string, string>> = {
  'es desk contract minutes': 'signs of units alone',
  'fr desk contract minutes': 'signs of units alone',
  'es desk evidence value': 'a number and signs of units alone',
  'fr desk evidence value': 'a number and signs of units alone',
  'hi desk evidence value': 'a number and signs of units alone',
  'es desk firm no': '“no” in both',
  'es desk ticket answers no': '“no” in both',
  'es desk charts hours': 'signs of units alone',
  'fr desk charts hours': 'signs of units alone',
  'es desk map km': 'signs of units alone',
  'fr desk map km': 'signs of units alone',
  'es desk map north': 'the letter of the compass',
  'fr desk map north': 'the letter of the compass',
  'fr desk contract inSheet cause': '“cause” in both',
  'fr desk map heads place': '“Latitude, longitude” in both',
  'es field asButton': 'capitals alone',
  'fr field asButton': 'capitals alone',
  'hi field asButton': 'has no capitals to change',
  'es field heardWords': 'signs between facts',
  'hi field heardWords': 'signs between facts',
  'es field readingWords': 'signs between facts',
  'hi field readingWords': 'signs between facts',
  'es field names seen': 'signs between facts',
  'hi field names seen': 'signs between facts',
  'es field soManyCables': '“cables” in both',
  'fr field sign': '“Signature” in both',
};

/** What sentences are made with: numbers that look like nothing else; whatever takes text takes them too. */
const SAMPLES = [
  [70001, 70002, 70003, 70004, 70005],
  [1, 1, 1, 1, 1],
  [0, 0, 0, 0, 0],
] as const;

type Sentence = (...facts: readonly (number | string)[]) => unknown;

function tryOut(make: Sentence, facts: readonly number[]): string {
  const given = facts.slice(0, make.length);
  try {
    return String(make(...given));
  } catch {
    // It does with text what numbers cannot.
    return String(make(...given.map(String)));
  }
}

/** Each sentence by its path; of what is made of facts, what the samples give. */
function sentencesOf(words: unknown, path: string): [path: string, said: string[]][] {
  if (typeof words === 'string') return [[path, [words]]];
  if (typeof words === 'function') {
    return [[path, SAMPLES.map((facts) => tryOut(words as Sentence, facts))]];
  }
  return Object.entries(words as object).flatMap(([name, inner]) =>
    sentencesOf(inner, `${path} ${name}`),
  );
}

const CASES = Object.entries(PLACES).flatMap(([place, { en, ...others }]) =>
  Object.entries(others).map(([language, words]) => {
    return { place, language, english: sentencesOf(en, place), said: sentencesOf(words, place) };
  }),
);

describe.each(CASES)('what the pages of $place say in $language', ({ language, english, said }) => {
  const own = new Map(said);

  it('is there, sentence by sentence', () => {
    expect(said.map(([path]) => path).sort()).toEqual(english.map(([path]) => path).sort());
    expect(said.filter(([, [first = '']]) => first.trim() === '')).toEqual([]);
  });

  it('is not left in English', () => {
    const same = english
      .filter(([path, each]) => String(own.get(path)) === String(each))
      .map(([path]) => `${language} ${path}`);
    expect(same.filter((path) => !(path in THE_SAME))).toEqual([]);
  });

  it('tells the same facts', () => {
    const factsIn = ([, [first = '']]: [string, string[]]) =>
      [...new Set(first.replaceAll(/\D*(7000\d)\D*/g, '$1 ').match(/7000\d/g))].sort();
    const lost = english.filter((one) => {
      const [path] = one;
      return String(factsIn([path, own.get(path) ?? []])) !== String(factsIn(one));
    });
    expect(lost.map(([path]) => path)).toEqual([]);
  });
});

describe('the reasons for what is the same', () => {
  it('are of sentences that are', () => {
    const same = CASES.flatMap(({ language, english, said }) => {
      const own = new Map(said);
      return english
        .filter(([path, each]) => String(own.get(path)) === String(each))
        .map(([path]) => `${language} ${path}`);
    });
    expect(Object.keys(THE_SAME).filter((path) => !same.includes(path))).toEqual([]);
  });
});
