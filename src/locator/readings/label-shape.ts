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
  /** By label, the cores of which a short is seen, among those of which a loop was read: others go with no state. */
  readonly seen: Uint8Array;
  readonly loopCores: CoreSet;
}

export type Links = Pick<Moves, 'from' | 'to'>;
