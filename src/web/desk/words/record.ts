import { EN_RECORD } from './en/record.js';

export const RECORD_WORDS = EN_RECORD;
