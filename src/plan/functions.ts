import { type CoreSet, RETURN, SELECT, SPEECH, SUPPLY } from './cores.js';

/** What a room's unit can do, and what an observation is about. */
export const FUNCTIONS = [
  'lamp',
  'announcement',
  'bell',
  'music',
  'room-call',
  'talkback',
] as const;

export type FunctionName = (typeof FUNCTIONS)[number];

/** A set of functions as bits, in the order of FUNCTIONS. */
export type FunctionSet = number;

export const ALL_FUNCTIONS: FunctionSet = (1 << FUNCTIONS.length) - 1;

export function functionSet(names: readonly FunctionName[]): FunctionSet {
  return names.reduce((set, name) => set | (1 << FUNCTIONS.indexOf(name)), 0);
}

const POWER = SUPPLY | RETURN;

/** The cores that each function needs (fault model, section 1), in the order of FUNCTIONS. */
export const CORES_NEEDED: readonly CoreSet[] = [
  POWER,
  POWER | SPEECH,
  POWER | SPEECH,
  POWER | SPEECH,
  POWER | SPEECH | SELECT,
  POWER | SPEECH | SELECT,
];
