/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { CoreSet } from '../../plan/cores.js';
import { SUPPLY } from '../../plan/cores.js';
import type { FunctionSet } from '../../plan/functions.js';
import { crossNode } from '../sweep/cross-node.js';
import { crossPort } from '../sweep/port.js';
import { joinTrunks, type SiteModel } from '../sweep/site.js';
import { ofClasses } from '../sweep/station-classes.js';
import { crossSpanInto, sweepUp } from '../sweep/sweep-trunk.js';
import type { TrunkModel } from '../sweep/trunk-model.js';
import { emptyTrunkTables, type TrunkTables } from '../sweep/trunk-tables.js';
import { spansTo, trunkWithout } from './spans-in-question.js';

/** A station with everything past it disconnected, by positions in the site's model, and the function tried there. */
export interface Isolated {
  readonly t: number;
  readonly n: number;
  readonly func: number;
}

/**
 * ln P(evidence, and the function would work at the station with everything past it disconnected); `weak` or not, or
 * not weak only. It would work if the way to the station carries the cores it needs and no short of them is to be seen
 * from the port on that way, at its stations or down its side branches: whatever is past the station may be as it will.
 * So all else is ruled out and the way up done once; the evidence itself stays that of the whole trunk.
 */
export function logEvidenceIfIsolated(
  site: SiteModel,
  { t, n, func }: Isolated,
  weakToo: boolean,
): number {
  const needed = site.system.plan.coresNeeded[func]!;
  const evidence = site.trunks.map((trunk, at) =>
    at === t
      ? sweepIsolated(worksAlone(trunk, n, func, weakToo), n, needed)
      : sweepUp(trunk).port.logEvidence,
  );
  const { headEnd } = site;
  const zone = site.trunks[t]!.zone[n]!;
  const chance = headEnd.chance.map((prior, g) =>
    headEnd.disables[zone]![g]! & (1 << func) ? 0 : prior,
  );
  return joinTrunks({ ...site, headEnd: { ...headEnd, chance } }, evidence).logEvidence;
}

/** Only what leaves the function working there, on the way and at the station. */
function worksAlone(model: TrunkModel, n: number, func: number, weakToo: boolean): TrunkModel {
  const { plan, stationClasses } = model.system;
  const needed = plan.coresNeeded[func]!;
  const way = new Set(spansTo(model.tree, n));
  const trunk = trunkWithout(
    model,
    way,
    ({ removes, shorts, weakens }) => ((removes | shorts) & needed) > 0 || (weakens && !weakToo),
  );
  const station = model.station.map((chances, at) => {
    if (!chances || !way.has(at)) return chances;
    const classes =
      at === n ? worksHere(stationClasses.disables, chances.classes, 1 << func) : chances.classes;
    const short = needed & SUPPLY ? 0 : chances.short;
    return ofClasses(stationClasses, plan.functions.length, classes, short);
  });
  return { ...trunk, station, portNoOutput: 0 };
}

function worksHere(
  disables: readonly FunctionSet[],
  classes: Float64Array,
  func: FunctionSet,
): Float64Array {
  return classes.map((chance, k) => (disables[k]! & func ? 0 : chance));
}

/** The way up, with the shorts of needed cores ruled out at the top of every side branch. */
function sweepIsolated(model: TrunkModel, n: number, needed: CoreSet): Float64Array {
  const { tree } = model;
  const tables = emptyTrunkTables(model);
  const way = new Set(spansTo(model.tree, n));
  for (let at = tree.count - 1; at >= 0; at--) {
    crossNode(model, at, tables);
    crossSpanInto(model, at, tables);
    const feeder = tree.parent[at]!;
    const isSideBranch = !way.has(at) && feeder !== n && (feeder < 0 || way.has(feeder));
    if (isSideBranch) ruleOutShorts(tables, at, needed);
  }
  return crossPort(model, tables).logEvidence;
}

function ruleOutShorts(tables: TrunkTables, span: number, cores: CoreSet): void {
  const { count, view } = tables.space;
  const { at, columns } = tables.spans[span]!;
  for (let s = 0; s < count; s++) {
    if (!(view[s]! & cores)) continue;
    const from = at * count + s * columns;
    tables.top.fill(0, from, from + columns);
  }
}
