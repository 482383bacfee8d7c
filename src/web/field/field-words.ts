import type { Language } from '#app/words/index.js';
import { PAGE_LANGUAGE } from '../parts/language.js';
import { FIELD_EN } from './words-en.js';
import { FIELD_ES } from './words-es.js';
import { FIELD_FR } from './words-fr.js';
import { FIELD_HI } from './words-hi.js';
import type { FieldWords } from './words-shape.js';

const WORDS: Readonly<Record<Language, FieldWords>> = {
  en: FIELD_EN,
  es: FIELD_ES,
  hi: FIELD_HI,
  fr: FIELD_FR,
};

export const FIELD_WORDS = WORDS[PAGE_LANGUAGE];
