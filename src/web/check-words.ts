import { FUNCTION_WORDS } from './function-words.js';
import { nameOf } from './room-groups.js';
import type { FunctionName, Outcome } from './wire.js';

/** A check as the service suggests it: about a room, or about a question that is answered by yes and no, or both. */
export interface Check {
  trunk: string | null;
  node: string | null;
  room: string | null;
  function: FunctionName | null;
  /** The name to answer it by; "yes": it is as it should be. */
  question?: string | null;
  /** The service's own words for it. */
  words?: string;
  minutes?: number;
}

/** What a check asks for, as sentences. */
export function checkInWords({ words, minutes, function: tried, room, node }: Check): string {
  const takes = minutes === undefined ? '' : ` Takes about ${minutesInWords(minutes)}.`;
  if (words !== undefined) return `${words.charAt(0).toUpperCase()}${words.slice(1)}.${takes}`;
  if (tried === null || node === null) return takes.trim();
  return FUNCTION_WORDS[tried].check(nameOf({ room, node })) + takes;
}

function minutesInWords(minutes: number): string {
  const whole = Math.max(1, Math.round(minutes));
  return whole === 1 ? 'a minute' : `${whole} minutes`;
}

/** What may come of trying something, as buttons. */
export function outcomesInWords(tried: FunctionName): { outcome: Outcome; words: string }[] {
  const { works, weak, fails } = FUNCTION_WORDS[tried];
  return [
    { outcome: 'works', words: works },
    { outcome: 'weak', words: weak },
    { outcome: 'fails', words: fails },
  ];
}
