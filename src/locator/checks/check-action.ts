import type { FunctionName } from '../../plan/functions.js';
import type { HeadEndSetting } from '../../plan/modes.js';
import { compareIds } from '../../drawing/drawn-tree.js';

/** Something that can be looked at, listened to or measured, and what it is about. */
export type CheckAction =
  | { kind: 'function'; trunk: string; node: string; function: FunctionName }
  /** The station's volume turned up, and its function listened to again. */
  | { kind: 'volume-knob'; trunk: string; node: string; function: FunctionName }
  | { kind: 'head-end'; setting: HeadEndSetting }
  | { kind: 'supply-volts'; trunk: string; node: string }
  /** All cores from end to end of a stretch; `from` null: the head-end's port. */
  | { kind: 'continuity'; trunk: string; from: string | null; to: string }
  /** One junction of the span into `to` opened and looked at. */
  | {
      kind: 'open-junction';
      trunk: string;
      from: string | null;
      to: string;
      component: 'junction-out' | 'junction-in';
    }
  /** Everything past a station disconnected there, and the station's function tried again. */
  | { kind: 'isolation'; trunk: string; node: string; function: FunctionName };

export interface RankedCheck {
  action: CheckAction;
  /** What it is expected to tell about the faults, in bits. */
  informationBits: number;
  /** What it takes, without the way there. */
  minutes: number;
  bitsPerMinute: number;
}

/** Knobs and settings that have been looked at already. */
export interface LookedAt {
  readonly settings: readonly HeadEndSetting[];
  readonly knobs: readonly { trunk: string; node: string }[];
}

/** The same order whatever the order of a list: by kind, then by what it is about. */
export function compareActions(a: CheckAction, b: CheckAction): number {
  return compareIds(keyOf(a), keyOf(b));
}

function keyOf(action: CheckAction): string {
  return JSON.stringify(Object.entries(action).sort(([a], [b]) => compareIds(a, b)));
}
