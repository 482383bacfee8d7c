import type { TellApart } from '../locator/index.js';
import type { EndedStep } from '../tickets/ticket-log.js';

/** What somebody who looked found: the drawing, the other way, or neither of both. */
export const SETTLED = ['as-drawn', 'otherwise', 'neither'] as const;
export type Settled = (typeof SETTLED)[number];

/** How many cables enter or leave there, as the check of a step that ends with that number. */
export function cablesCheck(trunk: string, node: string): string {
  return `cables ${JSON.stringify([trunk, node])}`;
}

export const NAMES_AS_DRAWN = 0;
export const NAMES_SWAPPED = 1;

/** Whose names are on which of two doors, as the check of a step. */
export function namesCheck(trunk: string, nodes: readonly string[]): string {
  return `names ${JSON.stringify([trunk, ...nodes])}`;
}

/** What the last look at it says; null: nobody looked. */
export function settledBy(tellApart: TellApart, seen: readonly EndedStep[]): Settled | null {
  const { trunk } = tellApart;
  const isOfCables = tellApart.look === 'cables-at-node';
  const own = isOfCables ? cablesCheck(trunk, tellApart.node) : namesCheck(trunk, tellApart.nodes);
  const ending = seen.findLast(({ check }) => check === own)?.ending;
  if (ending === undefined) return null;
  if (ending === (isOfCables ? tellApart.asDrawn : NAMES_AS_DRAWN)) return 'as-drawn';
  return ending === (isOfCables ? tellApart.alternative : NAMES_SWAPPED) ? 'otherwise' : 'neither';
}
