import type { ClockWords } from './clock-words.js';
import { EN_CLOCK } from './en/clock.js';
import { ES_CLOCK } from './es/clock.js';
import { FR_CLOCK } from './fr/clock.js';
import { HI_CLOCK } from './hi/clock.js';
import type { Language } from './languages.js';

// Apart from the index, which every page loads: of the pages only the desk says this.
const CLOCKS: Readonly<Record<Language, ClockWords>> = {
  en: EN_CLOCK,
  es: ES_CLOCK,
  hi: HI_CLOCK,
  fr: FR_CLOCK,
};

/** How promised times were reckoned. */
export function clockWordsIn(language: Language): ClockWords {
  return CLOCKS[language];
}
