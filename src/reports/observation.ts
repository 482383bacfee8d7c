import type { InformantKind, Outcome } from '../plan/error-rates.js';
import type { FunctionName } from '../plan/functions.js';

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
  /** The log entry that withdrew it; null where nobody did. */
  withdrawalId: string | null;
}

/** What one function at one station is called where it must be told from the others. */
export function pointKey(point: { trunk: string; node: string; function: string }): string {
  return JSON.stringify([point.trunk, point.node, point.function]);
}

/** One name in one kind of work is one person, however it was typed. */
export function informantOf({ saidBy, saidByKind }: Pick<Heard, 'saidBy' | 'saidByKind'>): string {
  return `${saidByKind} ${saidBy.trim().toLowerCase().replaceAll(/\s+/g, ' ')}`;
}
