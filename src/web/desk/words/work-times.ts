import { EN_WORK_TIMES } from './en/work-times.js';

export const WORK_TIMES_WORDS = EN_WORK_TIMES;
