import type { FunctionName } from '../plan/functions.js';

/** Reasons that need no more to be told. */
export type PlainLeftOut =
  | 'withdrawn'
  | 'before-closing'
  | 'before-mending'
  | 'after-mending'
  | 'said-again'
  | 'looked-again'
  | 'read-again'
  | 'no-such-place'
  | 'unit-out'
  | 'no-such-group';

/** Those that do. */
export type FurtherLeftOut =
  | { kind: 'no-such-node' | 'no-such-disconnection'; node: string }
  | { kind: 'room-out'; room: string }
  | { kind: 'never-fitted'; room: string; function: FunctionName }
  /** Others on the trunk were later, and so many are gone by. */
  | { kind: 'other-disconnections'; trunk: string; most: number }
  | { kind: 'older'; most: number }
  /** Figures of the head-end, by their names in the record. */
  | { kind: 'not-on-record'; missing: readonly string[] }
  /** What checks it says why, in English. */
  | { kind: 'refused'; reason: string };

/** Why something that is known of a ticket is not gone by. */
export type LeftOut = { kind: PlainLeftOut } | FurtherLeftOut;

export type LeftOutWords = (why: LeftOut) => string;

export function leftOutWords(
  plain: Readonly<Record<PlainLeftOut, string>>,
  further: (why: FurtherLeftOut) => string,
): LeftOutWords {
  const isPlain = (why: LeftOut): why is { kind: PlainLeftOut } => why.kind in plain;
  return (why) => (isPlain(why) ? plain[why.kind] : further(why));
}
