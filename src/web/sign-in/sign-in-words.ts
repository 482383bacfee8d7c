import type { Language } from '#app/words/index.js';
import { PAGE_LANGUAGE } from '../parts/language.js';
import { SIGN_IN_EN, type SignInWords } from './words-en.js';
import { SIGN_IN_ES } from './words-es.js';
import { SIGN_IN_FR } from './words-fr.js';
import { SIGN_IN_HI } from './words-hi.js';

const WORDS: Readonly<Record<Language, SignInWords>> = {
  en: SIGN_IN_EN,
  es: SIGN_IN_ES,
  hi: SIGN_IN_HI,
  fr: SIGN_IN_FR,
};

export const SIGN_IN_WORDS = WORDS[PAGE_LANGUAGE];
