import type { DeskWords } from '../words/words-en.js';

/** What somebody did, or was refused, by its route, such as `POST /api/v1/tickets/:ticketId/moves`. */
export function actInWords(action: string, { acts, reading, other }: DeskWords['audit']): string {
  if (action.startsWith('GET ')) return reading;
  const named: Readonly<Record<string, string>> = acts;
  // An older record has routes that are no more.
  return named[action.replace(' /api/v1', ' ')] ?? other;
}
