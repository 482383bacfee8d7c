import { FUNCTION_WORDS } from '../parts/function-words.js';
import type { ToldFunction, ToldOutcome, PassTicket } from '../parts/wire.js';

/** A check as the service suggests it: about a room, or about a question that is answered by yes and no, or both. */
export type SuggestedCheck = PassTicket['officeChecks'][number];

/** What a check asks for, as sentences. */
export function suggestionInWords({
  words,
  minutes,
}: Pick<SuggestedCheck, 'words' | 'minutes'>): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}. Takes about ${minutesInWords(minutes)}.`;
}

function minutesInWords(minutes: number): string {
  const whole = Math.max(1, Math.round(minutes));
  return whole === 1 ? 'a minute' : `${whole} minutes`;
}

/** What may come of trying something, as buttons. */
export function outcomesInWords(tried: ToldFunction): { outcome: ToldOutcome; words: string }[] {
  const { works, weak, fails } = FUNCTION_WORDS[tried];
  return [
    { outcome: 'works', words: works },
    { outcome: 'weak', words: weak },
    { outcome: 'fails', words: fails },
  ];
}
