import { EN_OFFICE, EN_PAGES } from './en/office.js';
import { EN } from './en/words.js';
import type { Language } from './languages.js';
import type { OfficeWords, PageWords } from './office-words.js';
import type { Words } from './words.js';

export { chooseLanguage, DEFAULT_LANGUAGE, type Language, LANGUAGES } from './languages.js';
export type { Formats } from './formats.js';
export type { OfficeWords, PageWords, TicketStateName, TriedWords } from './office-words.js';
export { planInText } from './plan-in-text.js';
export { signsInText, trunkInText } from './trunk-in-text.js';
export { wholePercents } from './whole-percents.js';
export type { Mark, NameNode, QuestionWords, Words } from './words.js';

const WORDS: Readonly<Partial<Record<Language, Words>>> = { en: EN };

/** Everything that is said of a site and its troubles, in that language. */
export function wordsIn(language: Language): Words {
  return WORDS[language] ?? EN;
}

const PAGES: Readonly<Partial<Record<Language, PageWords>>> = { en: EN_PAGES };

export function pageWordsIn(language: Language): PageWords {
  return PAGES[language] ?? EN_PAGES;
}

const OFFICE: Readonly<Partial<Record<Language, OfficeWords>>> = { en: EN_OFFICE };

export function officeWordsIn(language: Language): OfficeWords {
  return OFFICE[language] ?? EN_OFFICE;
}
