import type { CoreSet } from '../../plan/cores.js';
import type { Moves } from './label-space.js';

/** What one component does to labels. */
export interface ComponentLabels {
  /** By effect class; null where it leaves them as they are. */
  readonly moves: readonly (Moves | null)[];
  readonly shape: LabelShape;
}

/** What components have in common that lead from the same labels to the same ones, whatever that weighs: one object for all. */
export interface LabelShape {
  /** Labels that there can be below. */
  readonly labels: number;
  /** By effect class, where it leads; null where labels stay. */
  readonly links: readonly (Links | null)[];
  /** By label, the cores of which a short is seen, and those of which none is: it goes with no other states. */
  readonly seen: Uint8Array;
  readonly unseen: Uint8Array;
}

/** Whether a label goes with a state that sees these cores shorted. */
export function goesWith({ seen, unseen }: LabelShape, label: number, view: CoreSet): boolean {
  return ((seen[label] ?? 0) & ~view) === 0 && ((unseen[label] ?? 0) & view) === 0;
}

export type Links = Pick<Moves, 'from' | 'to'>;
