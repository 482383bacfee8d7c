/**
 * A ticket's states and moves, as data.
 *
 * - `reported`: rooms were reported; nobody has decided yet.
 * - `to-visit`: somebody must go.
 * - `at-work`: a technician is on it.
 * - `bridged`: works by a temporary mending; a follow-up visit is due.
 * - `mended`: mended lastingly; the walk test is to come.
 * - `closed`: proven, or closed with a stated reason.
 * - `merged`: its reports went to another ticket.
 */
export const TICKET_MOVES = {
  reported: ['to-visit', 'at-work', 'bridged', 'mended', 'closed', 'merged'],
  'to-visit': ['reported', 'at-work', 'bridged', 'mended', 'closed', 'merged'],
  'at-work': ['to-visit', 'bridged', 'mended', 'closed', 'merged'],
  bridged: ['to-visit', 'at-work', 'mended', 'closed', 'merged'],
  mended: ['to-visit', 'at-work', 'bridged', 'closed', 'merged'],
  closed: ['reported'],
  merged: ['reported'],
} as const satisfies Record<string, readonly string[]>;

export type TicketState = keyof typeof TICKET_MOVES;

export const TICKET_STATES = Object.keys(TICKET_MOVES) as TicketState[];

/** The states in which further reports for its trunks join a ticket. */
export const OPEN_STATES: readonly TicketState[] = TICKET_STATES.filter(
  (state) => state !== 'closed' && state !== 'merged',
);

/** The states that send somebody; before them, what needs no visit is asked. */
export const SENDING_STATES: readonly TicketState[] = ['to-visit', 'at-work'];

export function ticketMovesFrom(state: TicketState): readonly TicketState[] {
  return TICKET_MOVES[state];
}
