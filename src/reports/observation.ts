import type { InformantKind, Outcome } from '../plan/error-rates.js';
import { type FunctionName, pointKey } from '../plan/functions.js';

/** How an observation came about: what silence about the other rooms means depends on it. */
export const HOWS_REPORTED = ['gone-through', 'volunteered', 'walk-test'] as const;

export type HowReported = (typeof HOWS_REPORTED)[number];

/** One thing heard or not heard, as the rules of this folder read it. */
export interface Heard {
  id: string;
  trunk: string;
  node: string;
  function: FunctionName;
  outcome: Outcome;
  saidBy: string;
  saidByKind: InformantKind;
  how: HowReported;
  observedAt: Date;
  period: number;
  /** The node of its trunk below which all cable was disconnected meanwhile; null or left out: the trunk was whole. */
  disconnectedBelow?: string | null;
  /** The log entry that withdrew it; null where nobody did. */
  withdrawalId: string | null;
}

/** What was said, so that the same person's next word takes its place: with the trunk whole, or disconnected somewhere. */
export function saidKey(one: Pick<Heard, 'trunk' | 'node' | 'function' | 'disconnectedBelow'>) {
  return one.disconnectedBelow == null
    ? pointKey(one)
    : JSON.stringify([pointKey(one), one.disconnectedBelow]);
}

/** Something is wrong with the trunk as it is used: what is silent while it is disconnected is no complaint. */
export function isTrouble({ outcome, disconnectedBelow }: Told): boolean {
  return outcome !== 'works' && outcome !== 'not-checked' && disconnectedBelow == null;
}

interface Told {
  outcome: Outcome | 'not-checked';
  disconnectedBelow?: string | null;
}

/** One name in one kind of work is one person, however it was typed. */
export function informantOf({ saidBy, saidByKind }: Pick<Heard, 'saidBy' | 'saidByKind'>): string {
  return `${saidByKind} ${saidBy.trim().toLowerCase().replaceAll(/\s+/g, ' ')}`;
}
