/** Where a fault may be: a span's joints, a station, the head-end. */
export interface WalkPlace {
  /** What to do there, in words: `Open the terminals at Room 12`. */
  label: string;
  /** Index of the spot where it is opened. */
  spot: number;
  /** To open it and see for certain whether the fault is here. */
  openMinutes: number;
  /** More, if it is. */
  mendMinutes: number;
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
 * The technician stands at a spot and wants every reported function to work again. Opening a place
 * that is at fault mends it; whether all works then is heard at once from the office, so the work
 * ends with the last fault. A check that is repeated with nothing mended says the same again.
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

export type WalkAction = { kind: 'check'; check: number } | { kind: 'open'; place: number };
