import { power } from '../../elementary/power.js';
import type { CoreSet } from '../../plan/cores.js';
import { coreSet, type PlanTables } from '../../plan/plan-tables.js';
import type { System } from '../sweep/system.js';
import { READING_REACH } from '../request/limits.js';
import type {
  Continuity,
  Electrical,
  LocateRequest,
  LoopOhms,
  SupplyVolts,
} from '../request/locate-request.js';
import { longestLoopOhms, loopOhmsPerMetre } from '../request/longest-loop-ohms.js';
import type { TrunkTree } from '../sweep/trunk-tree.js';
import { logFlat, loopExcess } from './loop-excess.js';
import { nominalVolts } from './nominal-volts.js';
import { voltsByFeed } from './volts-by-feed.js';

/** A stretch of a trunk asked about for continuity of some cores, by everybody who asked. */
export interface TestedStretch {
  /** The node above it; -1 is the port. */
  readonly from: number;
  /** The nodes whose spans it is made of. */
  readonly spans: ReadonlySet<number>;
  readonly cores: CoreSet;
  /** P(what was said | intact), P(what was said | broken). */
  readonly likelihood: readonly [number, number];
}

/** A core whose loop was read from the port. */
export interface Loop {
  readonly core: CoreSet;
  /** What a short between two distances has over the flat shares. */
  readonly excessOf: (lowMetres: number, highMetres: number) => number;
}

/** The readings of one trunk. */
export interface TrunkReadings {
  /** By node: log P(volts read there | class of the feed); null where none were read. */
  readonly volts: readonly (Float64Array | null)[];
  readonly stretches: readonly TestedStretch[];
  readonly loops: readonly Loop[];
  /** Natural logarithm of what loop readings have as a factor whatever the faults. */
  readonly logFlat: number;
}

/** Chance that a continuity test is said wrongly, either way. */
const CONTINUITY_ERROR = 0.005;

/** The readings of one kind on one trunk, in an order that does not depend on the request's. */
function readingsOf<Kind extends SupplyVolts | LoopOhms | Continuity>(
  plan: PlanTables,
  request: LocateRequest,
  trunk: string,
  kind: Kind['kind'],
): Kind[] {
  const found = (request.readings ?? []).filter(
    (reading): reading is Kind => reading.kind === kind && reading.trunk === trunk,
  );
  const keyed = found.map((reading) => ({ reading, key: JSON.stringify(keyParts(plan, reading)) }));
  return keyed.sort((a, b) => (a.key < b.key ? -1 : 1)).map(({ reading }) => reading);
}

function keyParts(plan: PlanTables, reading: SupplyVolts | LoopOhms | Continuity): unknown[] {
  if (reading.kind === 'supply-volts')
    return [reading.node, reading.volts, reading.uncertaintyVolts];
  if (reading.kind === 'loop-ohms') return [reading.core, reading.ohms, reading.uncertaintyOhms];
  return [reading.from ?? null, reading.to, coreSet(plan, reading.cores), reading.passes];
}

function groupBy<T>(items: readonly T[], keyOf: (item: T) => string): T[][] {
  const groups = new Map<string, T[]>();
  for (const item of items) groups.set(keyOf(item), [...(groups.get(keyOf(item)) ?? []), item]);
  return [...groups.values()];
}

function stretchesOf(
  plan: PlanTables,
  readings: readonly Continuity[],
  { nodeIds, parent }: TrunkTree,
): TestedStretch[] {
  const position = new Map(nodeIds.map((id, n) => [id, n]));
  const keyOf = (one: Continuity) => JSON.stringify([one.from, one.to, coreSet(plan, one.cores)]);
  return groupBy(readings, keyOf).flatMap((alike) => {
    const [first] = alike;
    if (!first) return [];
    const from = position.get(first.from ?? '') ?? -1;
    const spans = new Set<number>();
    for (let n = position.get(first.to) ?? -1; n !== from && n >= 0; n = parent[n] ?? -1)
      spans.add(n);
    const passed = alike.filter(({ passes }) => passes).length;
    const failed = alike.length - passed;
    const likelihood = [
      power(1 - CONTINUITY_ERROR, passed) * power(CONTINUITY_ERROR, failed),
      power(CONTINUITY_ERROR, passed) * power(1 - CONTINUITY_ERROR, failed),
    ] as const;
    return [{ from, spans, cores: coreSet(plan, first.cores), likelihood }];
  });
}

function loopsOf(
  plan: PlanTables,
  readings: readonly LoopOhms[],
  tree: TrunkTree,
  electrical: Required<Electrical> | undefined,
): { loops: Loop[]; logFlat: number } {
  if (!electrical || readings.length === 0) return { loops: [], logFlat: 0 };
  const rangeOhms = READING_REACH * longestLoopOhms(tree, electrical);
  const ohmsPerMetre = loopOhmsPerMetre(electrical);
  const loops = groupBy(readings, ({ core }) => core).map((alike) => {
    const excess = loopExcess(alike, rangeOhms);
    return {
      core: coreSet(
        plan,
        alike.slice(0, 1).map(({ core }) => core),
      ),
      excessOf: (low: number, high: number) => excess(low * ohmsPerMetre, high * ohmsPerMetre),
    };
  });
  return { loops, logFlat: logFlat(readings.length, rangeOhms) };
}

/** @throws InvalidLocateRequest when the trunk's supply collapses under its load, and volts were read on it */
export function trunkReadings(
  { plan, feedClasses }: System,
  request: LocateRequest,
  tree: TrunkTree,
): TrunkReadings | null {
  if (!request.readings?.some(({ trunk }) => trunk === tree.id)) return null;
  const trunk = request.trunks.find(({ id }) => id === tree.id);
  if (!trunk) return null;
  const electrical = request.electrical && { celsius: 20, ...request.electrical };
  const volts: (Float64Array | null)[] = tree.nodeIds.map(() => null);
  const read = readingsOf<SupplyVolts>(plan, request, tree.id, 'supply-volts');
  if (electrical && read.length > 0) {
    const { sourceVolts } = electrical;
    const expected = nominalVolts(tree, electrical);
    for (const here of groupBy(read, ({ node }) => node)) {
      const n = tree.nodeIds.indexOf(here[0]?.node ?? '');
      const nominal = { nominalVolts: expected[n] ?? 0, sourceVolts };
      const rangeVolts = READING_REACH * sourceVolts;
      volts[n] = voltsByFeed(
        feedClasses,
        here.map((reading) => ({ ...reading, ...nominal, rangeVolts })),
      );
    }
  }
  const continuity = readingsOf<Continuity>(plan, request, tree.id, 'continuity');
  const loops = readingsOf<LoopOhms>(plan, request, tree.id, 'loop-ohms');
  return {
    volts,
    stretches: stretchesOf(plan, continuity, tree),
    ...loopsOf(plan, loops, tree, electrical),
  };
}
