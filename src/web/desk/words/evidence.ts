import { EN_EVIDENCE } from './en/evidence.js';

export const EVIDENCE_WORDS = EN_EVIDENCE;
