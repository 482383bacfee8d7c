import { EN_NOTICE } from './en/notice.js';
import { EN_OFFICE, EN_PAGES } from './en/office.js';
import { EN } from './en/words.js';
import { ES_OFFICE, ES_PAGES } from './es/office.js';
import { ES } from './es/words.js';
import { FR_OFFICE, FR_PAGES } from './fr/office.js';
import { FR } from './fr/words.js';
import { HI_OFFICE, HI_PAGES } from './hi/office.js';
import { HI } from './hi/words.js';
import { ES_NOTICE } from './es/notice.js';
import { FR_NOTICE } from './fr/notice.js';
import { HI_NOTICE } from './hi/notice.js';
import type { Language } from './languages.js';
import type { NoticeWords } from './notice-words.js';
import type { OfficeWords, PageWords } from './office-words.js';
import type { Words } from './words.js';

export { chooseLanguage, DEFAULT_LANGUAGE, type Language, LANGUAGES } from './languages.js';
export type { ClockWords } from './clock-words.js';
export type { JobWords } from './job-words.js';
export type { ReviewWords, SheetSection } from './review-words.js';
export type { AnswerWords, OneSaid, ToldCause } from './answer-words.js';
export type { LeftOut } from './left-out-words.js';
export type { Formats } from './formats.js';
export { FUNCTIONS_AS_ASKED } from './office-words.js';
export type { OfficeWords, PageWords, TicketStateName, TriedWords } from './office-words.js';
export type { NoticeWords } from './notice-words.js';
export { planInText } from './plan-in-text.js';
export { signsInText, trunkInText } from './trunk-in-text.js';
export { wholePercents } from './whole-percents.js';
export type { Mark, NameNode, QuestionWords, Words } from './words.js';

const WORDS: Readonly<Record<Language, Words>> = { en: EN, es: ES, hi: HI, fr: FR };
const PAGES: Readonly<Record<Language, PageWords>> = {
  en: EN_PAGES,
  es: ES_PAGES,
  hi: HI_PAGES,
  fr: FR_PAGES,
};
const OFFICE: Readonly<Record<Language, OfficeWords>> = {
  en: EN_OFFICE,
  es: ES_OFFICE,
  hi: HI_OFFICE,
  fr: FR_OFFICE,
};

/** Everything that is said of a site and its troubles, in that language. */
export function wordsIn(language: Language): Words {
  return WORDS[language];
}

export function pageWordsIn(language: Language): PageWords {
  return PAGES[language];
}

export function officeWordsIn(language: Language): OfficeWords {
  return OFFICE[language];
}

const NOTICES: Readonly<Record<Language, NoticeWords>> = {
  en: EN_NOTICE,
  es: ES_NOTICE,
  hi: HI_NOTICE,
  fr: FR_NOTICE,
};

/** Mails about what happened. */
export function noticeWordsIn(language: Language): NoticeWords {
  return NOTICES[language];
}
