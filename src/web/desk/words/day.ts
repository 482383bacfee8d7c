import { EN_DAY } from './en/day.js';

export const DAY_WORDS = EN_DAY;
