import { ln, log1p } from '../../elementary/ln.js';
import type { SpanMode } from '../../plan/modes.js';
import { type CoreSet, SUPPLY } from '../../plan/cores.js';
import { metresFromPort } from '../readings/short-order.js';
import type { TrunkReadings } from '../readings/trunk-readings.js';
import { FEEDS, PLAN } from './default-system.js';
import type { SiteModel } from '../sweep/site.js';
import type { TrunkTree } from '../sweep/trunk-tree.js';
import type { WorldFault } from './probable-world.js';
import { shortsFromPort, trunkState } from './trunk-state.js';

/** Metres from the port between which a short is, everywhere equally likely. */
interface ShortAt {
  low: number;
  high: number;
}

/**
 * log P(the readings | these faults, everything else being ok), by the densities of the sweep; null where nothing was read.
 * What a world does not name may be faulty without making a difference to what was heard, but not always without making
 * one to a reading: that is left out.
 */
export function worldReadings(site: SiteModel): ((faults: readonly WorldFault[]) => number) | null {
  const read = site.trunks.flatMap(({ tree, readings }) =>
    readings ? [{ tree, readings, metres: metresFromPort(tree) }] : [],
  );
  if (read.length === 0) return null;
  return (faults) =>
    read.reduce((sum, { tree, readings, metres }) => {
      // The head-end's too: without power every meter reads nothing.
      const own = faults.filter(({ place }) => !('trunk' in place) || place.trunk === tree.id);
      return (
        sum +
        logVolts(tree, readings, own) +
        logContinuity(tree, readings, own) +
        logLoops(tree, readings, own, metres)
      );
    }, 0);
}

function logVolts(
  tree: TrunkTree,
  { volts }: TrunkReadings,
  faults: readonly WorldFault[],
): number {
  const { feeds, weak } = trunkState(tree, faults, null);
  return volts.reduce(
    (sum, byFeed, n) => sum + (byFeed?.[FEEDS.of(feeds[n] ?? 0, weak[n] === 1)] ?? 0),
    0,
  );
}

function logContinuity(
  tree: TrunkTree,
  { stretches }: TrunkReadings,
  faults: readonly WorldFault[],
): number {
  return stretches.reduce((sum, { spans, cores, likelihood }) => {
    const isBroken = faults.some(
      ({ place, mode }) =>
        place.kind === 'span' &&
        spans.has(tree.nodeIds.indexOf(place.to)) &&
        (PLAN.spanEffects[mode as SpanMode].removes & cores) !== 0,
    );
    return sum + ln(likelihood[isBroken ? 1 : 0]);
  }, 0);
}

function logLoops(
  tree: TrunkTree,
  { loops, logFlat }: TrunkReadings,
  faults: readonly WorldFault[],
  metres: Float64Array,
): number {
  return loops.reduce((sum, { core, excessOf }) => {
    const shorts = faults.flatMap((fault) =>
      shortsOf(fault) & core && isSeen(tree, faults, fault, core)
        ? shortAt(tree, fault, metres)
        : [],
    );
    const [nearest] = shorts.sort(byMiddle);
    return sum + (nearest ? log1p(excessOf(nearest.low, nearest.high)) : 0);
  }, logFlat);
}

function shortsOf({ place, mode }: WorldFault): CoreSet {
  if (place.kind === 'span') return PLAN.spanEffects[mode as SpanMode].shorts;
  return place.kind === 'station' && mode === PLAN.stationShort ? SUPPLY : 0;
}

/** Whether a short is seen from the port past the opens of this world. */
function isSeen(
  tree: TrunkTree,
  faults: readonly WorldFault[],
  short: WorldFault,
  core: CoreSet,
): boolean {
  const alone = faults.filter((fault) => fault === short || shortsOf(fault) === 0);
  return (shortsFromPort(tree, alone, null) & core) !== 0;
}

function shortAt(
  tree: TrunkTree,
  { place, component }: WorldFault,
  metres: Float64Array,
): ShortAt[] {
  if (place.kind !== 'span' && place.kind !== 'station') return [];
  const n = tree.nodeIds.indexOf(place.kind === 'span' ? place.to : place.node);
  const low = metres[tree.parent[n] ?? -1] ?? 0;
  const high = metres[n] ?? 0;
  if (component === 'cable') return [{ low, high }];
  return component === 'junction-out' ? [{ low, high: low }] : [{ low: high, high }];
}

/** Of the sweep: two cables compare by their middles, of equal middles the shorter is the nearer. */
function byMiddle(a: ShortAt, b: ShortAt): number {
  return a.low + a.high - (b.low + b.high) || a.high - a.low - (b.high - b.low);
}
