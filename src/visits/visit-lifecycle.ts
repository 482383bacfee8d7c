/** A visit is planned in good time, or called out because something does not work. */
export const VISIT_KINDS = ['planned', 'call-out'] as const;

export type VisitKind = (typeof VISIT_KINDS)[number];

/**
 * A visit's states and moves, as data.
 *
 * - `planned`: it stands on a day; nobody has gone.
 * - `under-way`: somebody is there.
 * - `done`: the work is done and said.
 * - `missed`: the day passed and nobody went; a visit in its place is another visit.
 * - `called-off`: not wanted any more; it can be wanted again.
 */
export const VISIT_MOVES = {
  planned: ['under-way', 'missed', 'called-off'],
  'under-way': ['done', 'planned'],
  done: [],
  missed: [],
  'called-off': ['planned'],
} as const satisfies Record<string, readonly string[]>;

export type VisitState = keyof typeof VISIT_MOVES;

export const VISIT_STATES = Object.keys(VISIT_MOVES) as VisitState[];

export function visitMovesFrom(state: VisitState): readonly VisitState[] {
  return VISIT_MOVES[state];
}

/** Where no move leads on, the visit stays as it was: it is counted, and shown to the customer. */
export function isSettled(state: VisitState): boolean {
  return visitMovesFrom(state).length === 0;
}
