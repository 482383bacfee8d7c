/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ALL_CORES, type CoreSet, SUPPLY } from '../../plan/cores.js';
import { type SpanEffect, type SpanMode, viewAbove } from '../../plan/modes.js';
import type { TrunkTree } from '../sweep/trunk-tree.js';
import { PLAN } from './default-system.js';
import type { WorldFault } from './probable-world.js';

/** What travels on a trunk whose faults are known (fault model, section 3). */
export interface TrunkState {
  /** By node: the cores that arrive. */
  readonly feeds: Uint8Array;
  /** By node: 1 where the supply is weak. */
  readonly weak: Uint8Array;
}

const FROM_THE_TOP = ['junction-out', 'cable', 'junction-in'];
const NO_EFFECTS: readonly SpanEffect[] = [];

/** The few nodes of a trunk at which something is at fault, by position. */
interface FaultsByNode {
  /** Effects of the faults of the span into the node, from the top down. */
  readonly spans: ReadonlyMap<number, readonly SpanEffect[]>;
  readonly shortedStations: ReadonlySet<number>;
  readonly portNoOutput: boolean;
}

function faultsByNode(tree: TrunkTree, faults: readonly WorldFault[]): FaultsByNode {
  const spans = new Map<number, SpanEffect[]>();
  const shortedStations = new Set<number>();
  let portNoOutput = false;
  const own = faults.filter(({ place }) => place.kind !== 'head-end' && place.trunk === tree.id);
  own.sort((a, b) => FROM_THE_TOP.indexOf(a.component) - FROM_THE_TOP.indexOf(b.component));
  for (const { place, mode } of own) {
    if (place.kind === 'port') portNoOutput = true;
    if (place.kind === 'station' && mode === PLAN.stationShort)
      shortedStations.add(tree.position.get(place.node)!);
    if (place.kind !== 'span') continue;
    const n = tree.position.get(place.to)!;
    const effect = PLAN.spanEffects[mode as SpanMode];
    const known = spans.get(n);
    if (known) known.push(effect);
    else spans.set(n, [effect]);
  }
  return { spans, shortedStations, portNoOutput };
}

function hasShort(spans: FaultsByNode['spans']): boolean {
  for (const effects of spans.values()) if (effects.some(({ shorts }) => shorts !== 0)) return true;
  return false;
}

/** Cores whose short is seen from the port: views go up from the last nodes to the first. */
function seenFromPort(
  { count, parent }: TrunkTree,
  { spans, shortedStations }: FaultsByNode,
  cutPast: number | null,
): CoreSet {
  // Most worlds have no short at all.
  if (shortedStations.size === 0 && !hasShort(spans)) return 0;
  const views = new Uint8Array(count);
  for (const n of shortedStations) views[n] = SUPPLY;
  let shorts: CoreSet = 0;
  for (let n = count - 1; n >= 0; n--) {
    let view: CoreSet = views[n]!;
    const effects = spans.get(n);
    if (effects) view = effects.reduceRight((seen, effect) => viewAbove(effect, seen), view);
    const above = parent[n]!;
    if (above === cutPast) continue;
    if (above < 0) shorts |= view;
    else views[above]! |= view;
  }
  return shorts;
}

/** Cores whose short is seen from the port; `cutPast` as of {@link trunkState}. */
export function shortsFromPort(
  tree: TrunkTree,
  faults: readonly WorldFault[],
  cutPast: number | null,
): CoreSet {
  return seenFromPort(tree, faultsByNode(tree, faults), cutPast);
}

/** `cutPast`: position of a node of which everything that it feeds is disconnected. */
export function trunkState(
  tree: TrunkTree,
  faults: readonly WorldFault[],
  cutPast: number | null,
): TrunkState {
  const byNode = faultsByNode(tree, faults);
  const shorts = seenFromPort(tree, byNode, cutPast);
  const headEnd = faults.find(({ place }) => place.kind === 'head-end');
  const taken = headEnd && PLAN.plan.headEnd[headEnd.mode]?.takesSupply ? SUPPLY : 0;
  const start = ALL_CORES & ~shorts & ~(byNode.portNoOutput ? SUPPLY : 0) & ~taken;
  const feeds = new Uint8Array(tree.count);
  const weak = new Uint8Array(tree.count);
  for (let n = 0; n < tree.count; n++) {
    const parent = tree.parent[n]!;
    if (parent === cutPast) continue;
    let feed: CoreSet = parent < 0 ? start : feeds[parent]!;
    let isWeak = parent < 0 ? 0 : weak[parent]!;
    for (const { removes, weakens } of byNode.spans.get(n) ?? NO_EFFECTS) {
      feed &= ~removes;
      if (weakens) isWeak = 1;
    }
    feeds[n] = feed;
    weak[n] = isWeak;
  }
  return { feeds, weak };
}
