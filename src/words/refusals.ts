import { REFUSALS, type RefusalWords } from './en/refusals.js';
import { ES_REFUSALS } from './es/refusals.js';
import { FR_REFUSALS } from './fr/refusals.js';
import { HI_REFUSALS } from './hi/refusals.js';
import type { Language } from './languages.js';

const WORDS: Readonly<Record<Exclude<Language, 'en'>, RefusalWords>> = {
  es: ES_REFUSALS,
  fr: FR_REFUSALS,
  hi: HI_REFUSALS,
};

const HOLE = /\{(\d)\}/g;

/** What has the most words of its own is tried first: "there is no {0} on trunk {1}" is also what begins longer ones. */
const PATTERNS = Object.entries(REFUSALS)
  .map(([name, english]) => {
    const [first = '', ...others] = english.split(/\{\d\}/).map(escaped);
    return {
      name: name as keyof typeof REFUSALS,
      own: english.replaceAll(HOLE, '').length,
      pattern: new RegExp(`^${[first, ...others].join('(.+?)')}$`, 's'),
    };
  })
  .sort((a, b) => b.own - a.own);

function escaped(text: string): string {
  return text.replaceAll(/[\\^$.*+?()[\]{}|]/g, '\\$&');
}

/** Nothing longer is looked at: what is told along may be as long as what was sent. */
const LONGEST_READ = 600;

/** What a refusal says, in that language; undefined in English, which is what it says already. */
export function refusalIn(language: Language, english: string): string | undefined {
  if (language === 'en') return undefined;
  const words = WORDS[language];
  return find(words, english) ?? words.other.replace(HOLE, () => english);
}

function find(words: RefusalWords, english: string): string | undefined {
  if (english.length > LONGEST_READ) return undefined;
  for (const { name, pattern } of PATTERNS) {
    const told = pattern.exec(english);
    if (told !== null)
      return words[name].replaceAll(HOLE, (_, at: string) => told[Number(at) + 1] ?? '');
  }
  // Some are made of several.
  const sentences = english.split(/(?<=\.) (?=\p{Lu})/u);
  if (sentences.length < 2) return undefined;
  const found = sentences.map((sentence) => find(words, sentence));
  return found.every((one) => one !== undefined) ? found.join(' ') : undefined;
}
