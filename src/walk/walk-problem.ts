/** Where a fault may be: a span's joints, a station, the head-end. */
export interface WalkPlace {
  /** What to do there, in words: `Open the terminals at Room 12`. */
  label: string;
  /** Index of the spot where it is opened. */
  spot: number;
  /** To open it and see whether the fault is here. */
  openMinutes: number;
  /** More, if it is. */
  mendMinutes: number;
  /** Chance that a fault here, of a kind (`World.kinds`), is not seen; left out: 0. */
  missedChance?: (kind: number) => number;
  /** Chance that it is taken for faulty, and mended, where it is sound; left out: 0. */
  falseChance?: number;
  /** It was opened before the walk and looked sound. */
  isSeenSound?: boolean;
  /** What to do where it looked sound and is suspected all the same, in words. */
  remakeLabel?: string;
  /** Index of a check whose outcome is seen as well once the place is open, such as whether the
   * supply arrives. */
  check?: number;
}

/** Something to look at or to measure, made at a spot. */
export interface WalkCheck {
  /** What to do, in words: `Look at the lamp in Room 9`. */
  label: string;
  spot: number;
  minutes: number;
  /** What can come out, in words: `['it is lit', 'it is dark']`. */
  outcomes: readonly string[];
  /** Chance of each outcome when exactly these places (indices, ascending) are at fault, each in its way (`kinds`). */
  chances: (faults: readonly number[], kinds: readonly number[]) => readonly number[];
}

/** A hypothesis: exactly these places (indices, ascending, at least one) are at fault. */
export interface World {
  faults: readonly number[];
  /** In which way each of them is, where checks can tell; left out: 0 for all. */
  kinds?: readonly number[];
  probability: number;
}

/**
 * The technician stands at a spot and wants every reported function to work again. A place that is
 * opened and found at fault is mended; whether all works then is heard at once from the office, so
 * the work ends with the last fault. Looking again where nothing was seen says the same again, so
 * that such a place is only made anew, unseen, which mends it for certain. A check that is repeated
 * with nothing mended says the same again too.
 */
export interface WalkProblem {
  /** Minutes from spot to spot, with the access of the spot one comes to (`walkMinutes`). */
  walkMinutes: readonly (readonly number[])[];
  startSpot: number;
  places: readonly WalkPlace[];
  checks: readonly WalkCheck[];
  /** Their probabilities sum to 1. */
  worlds: readonly World[];
}

/** `remake`: what was opened and looked sound is made anew all the same. */
export type WalkAction =
  | { kind: 'check'; check: number }
  | { kind: 'open'; place: number }
  | { kind: 'remake'; place: number };
