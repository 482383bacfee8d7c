/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ALL_CORES, type CoreSet, RETURN } from '../../plan/cores.js';
import type { EffectClasses } from '../sweep/effect-classes.js';
import type { StateSpace } from '../sweep/state-space.js';
import { type Way, waysThrough } from './passages.js';

/**
 * One way through a component where some short further down, or its own, is seen from the port. `from` and
 * `to` are the rows above and below it; `to` is -1 where nothing more is seen.
 */
export interface VisibleWay extends Way {
  readonly from: number;
  readonly to: number;
  /** It holds a short that is seen from the port. */
  readonly holds: boolean;
}

/** Rows of a table of what is seen: a state with the cores of shorts in its view that are seen from the port. */
export interface SeenRows {
  readonly count: number;
  /** The row of (seen - 1) * states + state; -1 where these cores are not in its view. */
  readonly of: Int32Array;
  readonly state: Uint16Array;
  readonly seen: Uint8Array;
}

const ROWS = new WeakMap<StateSpace, Map<CoreSet, SeenRows>>();

export function seenRows(space: StateSpace, cores: CoreSet): SeenRows {
  const ofSpace = ROWS.get(space) ?? new Map<CoreSet, SeenRows>();
  ROWS.set(space, ofSpace);
  const known = ofSpace.get(cores) ?? listRows(space, cores);
  ofSpace.set(cores, known);
  return known;
}

function listRows({ count, view }: StateSpace, cores: CoreSet): SeenRows {
  const of = new Int32Array(cores * count).fill(-1);
  const rows: [seen: CoreSet, state: number][] = [];
  for (let seen = 1; seen <= cores; seen++)
    for (let s = 0; s < count; s++)
      if ((seen & ~(cores & view[s]!)) === 0) of[(seen - 1) * count + s] = rows.push([seen, s]) - 1;
  return {
    count: rows.length,
    of,
    state: Uint16Array.from(rows, ([, state]) => state),
    seen: Uint8Array.from(rows, ([seen]) => seen),
  };
}

const WAYS = new WeakMap<EffectClasses, Map<CoreSet, readonly VisibleWay[]>>();

/** Ways on which a short of one of these cores is seen from the port, here or further down. */
export function visibleWays(
  space: StateSpace,
  classes: EffectClasses,
  cores: CoreSet,
): readonly VisibleWay[] {
  const ofClasses = WAYS.get(classes) ?? new Map<CoreSet, readonly VisibleWay[]>();
  WAYS.set(classes, ofClasses);
  const known = ofClasses.get(cores) ?? listWays(space, classes, cores);
  ofClasses.set(cores, known);
  return known;
}

function listWays(space: StateSpace, classes: EffectClasses, cores: CoreSet): VisibleWay[] {
  const rows = seenRows(space, cores);
  return waysThrough(classes).flatMap((way) => {
    const through = way.removes & RETURN ? 0 : ALL_CORES & ~way.removes;
    const list: VisibleWay[] = [];
    for (let seen = 1; seen <= cores; seen++) {
      const from = rows.of[(seen - 1) * space.count + way.above]!;
      if (from < 0) continue;
      const seenBelow = seen & space.view[way.below]! & through;
      const holds = (way.shorts & seen) !== 0;
      const to = seenBelow === 0 ? -1 : rows.of[(seenBelow - 1) * space.count + way.below]!;
      if (holds || to >= 0) list.push({ ...way, from, to, holds });
    }
    return list;
  });
}
