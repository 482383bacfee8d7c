/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { LocateRequest } from '../request/locate-request.js';
import type { SiteModel } from '../sweep/site.js';
import type { SweptStations } from '../sweep/sweep-site.js';
import { zeroTable } from '../numbers/zero-table.js';

/** A function at a station that somebody said is weak or fails. Trunk and node are places in the model. */
export interface Point {
  readonly trunk: number;
  readonly node: number;
  readonly func: number;
}

/** What was told that does not work, each once: by trunk, node and function, whatever the order told. */
export function pointsOf(
  { observations = [] }: LocateRequest,
  { system, trunks }: SiteModel,
): Point[] {
  const places = new Map(
    trunks.map(({ tree }, trunk) => {
      const nodes = new Map(tree.nodeIds.map((id, node) => [id, node]));
      return [tree.id, { trunk, nodes }];
    }),
  );
  const points = new Map<string, Point>();
  for (const { trunk: id, node, function: name, outcome, disconnectedBelow } of observations) {
    if (outcome === 'works' || disconnectedBelow !== undefined) continue;
    const { trunk, nodes } = places.get(id)!;
    const point = { trunk, node: nodes.get(node)!, func: system.plan.functions.indexOf(name) };
    points.set(`${point.trunk} ${point.node} ${point.func}`, point);
  }
  return [...points.values()].sort(
    (a, b) => a.trunk - b.trunk || a.node - b.node || a.func - b.func,
  );
}

/** By trunk, 1 at every node on the way to a point. */
export function waysTo(points: readonly Point[], { trunks }: SiteModel): Uint8Array[] {
  const onTheWay = trunks.map(({ tree }) => new Uint8Array(tree.count));
  for (const { trunk, node } of points) {
    const { parent } = trunks[trunk]!.tree;
    const marks = onTheWay[trunk]!;
    for (let n = node; n >= 0 && !marks[n]; n = parent[n]!) marks[n] = 1;
  }
  return onTheWay;
}

/** By head-end group, whether it leaves the function of a point working there: 1, or 0. */
export function leftWorking({ site }: SweptStations, { trunk, node, func }: Point): Float64Array {
  const { count, functions, enabled } = site.headEnd;
  const zone = site.trunks[trunk]!.zone[node]!;
  return Float64Array.from({ length: count }, (_, group) =>
    enabled[(zone * count + group) * functions + func]! > 0 ? 1 : 0,
  );
}

/** What a point's own feed and station say, where the head-end leaves the function working. */
export interface AtStation {
  /** Mass in which the function is good. */
  readonly good: number;
  /** It is only weak: somewhere on the way is a bad joint. */
  readonly weak: number;
  /** It arrives, and a mode of the station disables it: by class of modes. */
  readonly byClass: Float64Array;
}

export function atStation(swept: SweptStations, point: Point, working: Float64Array): AtStation {
  const { trunk, node, func } = point;
  const { space } = swept.site.trunks[trunk]!;
  const { stationClasses, feedClasses } = swept.site.system;
  const reach = feedClasses.reachNeeded[func]!;
  const { classes } = swept.site.trunks[trunk]!.station[node]!;
  const likelihood = swept.site.trunks[trunk]!.likelihood[node]?.table ?? null;
  const { at, contexts } = swept.sweeps[trunk]!.tables.nodes[node]!;
  const { feeds } = swept.trunks[trunk]!;
  const byClass = zeroTable(stationClasses.count);
  let good = 0;
  let weak = 0;
  for (const context of swept.live(contexts)) {
    if (working[context % working.length] === 0) continue;
    for (let feed = 0; feed < space.feeds; feed++) {
      if (space.reach[feed]! < reach) continue;
      const arrives = feeds[at * space.feeds + feed * contexts + context]!;
      for (let k = 0; k < stationClasses.count; k++) {
        const row = (context * stationClasses.count + k) * space.feeds;
        const mass = classes[k]! * arrives * (likelihood ? likelihood[row + feed]! : 1);
        if (stationClasses.disables[k]! & (1 << func)) byClass[k]! += mass;
        else if (space.weak[feed]) weak += mass;
        else good += mass;
      }
    }
  }
  return { good, weak, byClass };
}
