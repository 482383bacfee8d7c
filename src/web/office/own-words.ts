import { officeWordsIn } from '#app/words/index.js';
import { PAGE_LANGUAGE } from '../parts/language.js';

export const OFFICE_WORDS = officeWordsIn(PAGE_LANGUAGE);
