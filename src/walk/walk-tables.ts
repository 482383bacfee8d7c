/**
 * Every place that can be at fault in a state, by ascending number: `count` entries of each table. One such list serves a
 * whole walk and is written over for each state, as thousands of them are looked at.
 */
export interface WalkSuspects {
  count: number;
  readonly place: Int32Array;
  readonly spot: Int32Array;
  /** 1: opened before and looked sound, so that it is made anew. */
  readonly isOpened: Uint8Array;
  /** To open it and look, or to make it anew. */
  readonly minutes: Float64Array;
  /** More, if it is found at fault. */
  readonly mendMinutes: Float64Array;
  /** That it is at fault, alone or with others. */
  readonly chance: Float64Array;
  /** That it is at fault and opening it would not show it. */
  readonly missedChance: Float64Array;
}

export function noSuspects(places: number): WalkSuspects {
  return {
    count: 0,
    place: new Int32Array(places),
    spot: new Int32Array(places),
    isOpened: new Uint8Array(places),
    minutes: new Float64Array(places),
    mendMinutes: new Float64Array(places),
    chance: new Float64Array(places),
    missedChance: new Float64Array(places),
  };
}

/** In what order suspects are opened, and when each place is opened and made anew; written over for each state. */
export interface OpeningTimes {
  readonly order: Int32Array;
  readonly left: Int32Array;
  readonly opened: Float64Array;
  readonly remade: Float64Array;
}

export function noTimes(places: number): OpeningTimes {
  return {
    order: new Int32Array(places),
    left: new Int32Array(places),
    opened: new Float64Array(places),
    remade: new Float64Array(places),
  };
}
