import { EN_CONTRACT } from './en/contract.js';

export const CONTRACT_WORDS = EN_CONTRACT;
