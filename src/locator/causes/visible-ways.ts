/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ALL_CORES, type CoreSet, RETURN } from '../../plan/cores.js';
import { type EffectClasses, STATES } from '../sweep/states.js';
import { type Way, waysThrough } from './passages.js';

/**
 * One way through a component where some short further down, or its own, is seen from the port. `seen` are the cores of
 * shorts in view above it that are seen from the port too, `seenBelow` those below it; never empty above.
 */
export interface VisibleWay extends Way {
  readonly seen: CoreSet;
  readonly seenBelow: CoreSet;
  /** It holds a short that is seen from the port. */
  readonly holds: boolean;
}

const WAYS = new Map<EffectClasses, Map<CoreSet, readonly VisibleWay[]>>();

/** Ways on which a short of one of these cores is seen from the port, here or further down. */
export function visibleWays(classes: EffectClasses, cores: CoreSet): readonly VisibleWay[] {
  const ofClasses = WAYS.get(classes) ?? new Map<CoreSet, readonly VisibleWay[]>();
  WAYS.set(classes, ofClasses);
  const known = ofClasses.get(cores) ?? listWays(classes, cores);
  ofClasses.set(cores, known);
  return known;
}

function listWays(classes: EffectClasses, cores: CoreSet): VisibleWay[] {
  return waysThrough(classes).flatMap((way) => {
    const through = way.removes & RETURN ? 0 : ALL_CORES & ~way.removes;
    const list: VisibleWay[] = [];
    for (let seen = 1; seen <= cores; seen++) {
      if (seen & ~(cores & STATES.view[way.above]!)) continue;
      const seenBelow = seen & STATES.view[way.below]! & through;
      const holds = (way.shorts & seen) !== 0;
      if (holds || seenBelow !== 0) list.push({ ...way, seen, seenBelow, holds });
    }
    return list;
  });
}
