/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ALL_CORES, type CoreSet, SUPPLY } from '../../plan/cores.js';
import { type SpanEffect, type SpanMode, viewAbove } from '../../plan/modes.js';
import type { TrunkTree } from '../sweep/trunk-tree.js';
import { PLAN } from './default-system.js';
import type { WorldFault } from './probable-world.js';

/** What travels on a trunk whose faults are known (fault model, section 3). */
export interface TrunkState {
  /** Cores whose short is seen from the port. */
  readonly shorts: CoreSet;
  /** By node: the cores that arrive. */
  readonly feeds: Uint8Array;
  /** By node: 1 where the supply is weak. */
  readonly weak: Uint8Array;
}

const FROM_THE_TOP = ['junction-out', 'cable', 'junction-in'];

/** Effects of each span's faults, from the top down. */
function spanEffects(tree: TrunkTree, faults: readonly WorldFault[]): SpanEffect[][] {
  const own = faults.filter(
    (fault) => fault.place.kind === 'span' && fault.place.trunk === tree.id,
  );
  own.sort((a, b) => FROM_THE_TOP.indexOf(a.component) - FROM_THE_TOP.indexOf(b.component));
  return tree.nodeIds.map((id) =>
    own
      .filter(({ place }) => place.kind === 'span' && place.to === id)
      .map(({ mode }) => PLAN.spanEffects[mode as SpanMode]),
  );
}

/** `cutPast`: position of a node of which everything that it feeds is disconnected. */
export function trunkState(
  tree: TrunkTree,
  faults: readonly WorldFault[],
  cutPast: number | null,
): TrunkState {
  const effects = spanEffects(tree, faults);
  const isShort = (id: string) =>
    faults.some(
      ({ place, mode }) =>
        place.kind === 'station' &&
        place.trunk === tree.id &&
        place.node === id &&
        mode === PLAN.stationShort,
    );
  const tops = new Uint8Array(tree.count);
  const views = Uint8Array.from(tree.nodeIds, (id) => (isShort(id) ? SUPPLY : 0));
  let shorts: CoreSet = 0;
  for (let n = tree.count - 1; n >= 0; n--) {
    const parent = tree.parent[n]!;
    tops[n] = effects[n]!.reduceRight((view, effect) => viewAbove(effect, view), views[n]!);
    if (parent === cutPast) continue;
    if (parent < 0) shorts |= tops[n]!;
    else views[parent]! |= tops[n]!;
  }
  const noOutput = faults.some(({ place }) => place.kind === 'port' && place.trunk === tree.id);
  const headEnd = faults.find(({ place }) => place.kind === 'head-end');
  const taken = headEnd && PLAN.plan.headEnd[headEnd.mode]?.takesSupply ? SUPPLY : 0;
  const start = ALL_CORES & ~shorts & ~(noOutput ? SUPPLY : 0) & ~taken;
  const feeds = new Uint8Array(tree.count);
  const weak = new Uint8Array(tree.count);
  for (let n = 0; n < tree.count; n++) {
    const parent = tree.parent[n]!;
    if (parent === cutPast) continue;
    const removed = effects[n]!.reduce((set, effect) => set | effect.removes, 0);
    feeds[n] = (parent < 0 ? start : feeds[parent]!) & ~removed;
    weak[n] = (parent >= 0 && weak[parent]!) || effects[n]!.some((e) => e.weakens) ? 1 : 0;
  }
  return { shorts, feeds, weak };
}
