import type { Outcome } from '../plan/error-rates.js';
import { isTrouble } from './observation.js';

interface Reported {
  reported: {
    trunk: string;
    outcome: Outcome | 'not-checked';
    disconnectedBelow?: string | null;
  };
}

/** What of a report goes to one ticket; null: to a new one. */
export interface Share<Ticket, Sent> {
  ticket: Ticket | null;
  sent: Sent[];
}

/**
 * Shares a report out by trunk: what is about a trunk with an open ticket joins that ticket. The
 * rest opens one new ticket if anything in it does not work; if all of it works it goes along as
 * evidence with the first ticket that was joined, for trunks share the head-end.
 */
export function shareOut<Ticket, Sent extends Reported>(
  sent: Sent[],
  open: { ticket: Ticket; trunks: string[] }[],
): Share<Ticket, Sent>[] {
  const shares: { ticket: Ticket; sent: Sent[] }[] = [];
  const rest = new Set(sent);
  for (const { ticket, trunks } of open) {
    const joining = [...rest].filter(({ reported }) => trunks.includes(reported.trunk));
    joining.forEach((one) => rest.delete(one));
    if (joining.length > 0) shares.push({ ticket, sent: joining });
  }
  const [first, ...others] = shares;
  if (rest.size === 0) return shares;
  const allWork = [...rest].every(({ reported }) => !isTrouble(reported));
  if (first === undefined || !allWork) return [...shares, { ticket: null, sent: [...rest] }];
  return [{ ticket: first.ticket, sent: [...first.sent, ...rest] }, ...others];
}
