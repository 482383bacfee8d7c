/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { exp } from '../../elementary/exp.js';
import { channelBits } from '../posterior/information.js';
import { type CoreSet, SUPPLY } from '../../plan/cores.js';
import type { InformantErrors } from '../../plan/error-rates.js';
import type { SweptSite } from '../sweep/sweep-site.js';
import type { System } from '../sweep/system.js';
import type { CheckAction } from './check-action.js';
import type { ConditionChances } from './condition-chances.js';
import { stateAt, stationStates } from './station-states.js';
import { spanMass } from './spans-in-question.js';
import { type Isolated, logEvidenceIfIsolated } from './sweep-isolated.js';

/** With a short less likely than this, disconnecting tells no more than looking. */
const LEAST_SHORT = 0.05;
/** Stations of one trunk that are worked out, those that split the short most evenly: each is two sweeps. */
const MOST_STATIONS = 8;
/** Past so many nodes that they sweep together, fewer of them. */
const MOST_SWEPT_NODES = 1_600;

/** By core that can be shorted, the function whose coming back shows that its short is past the station. */
function triedFor({ plan, feedClasses }: System): { core: CoreSet; func: number }[] {
  return feedClasses.shortableCores
    .map((core) => ({ core, func: plan.coresNeeded.findIndex((needed) => needed & core) }))
    .filter(({ func }) => func >= 0);
}

type Isolation = Extract<CheckAction, { kind: 'isolation' }>;

/** "With everything past Room 9 disconnected, does it come back?", where a short is likely; in bits. */
export function isolationChecks(
  swept: SweptSite,
  errors: InformantErrors,
): { action: Isolation; bits: number }[] {
  const { system } = swept.site;
  const tried = triedFor(system);
  return swept.site.trunks.flatMap(({ tree }, t) =>
    tried.flatMap(({ core, func }) =>
      stationsToIsolate(swept, t, core).map((n) => {
        const at = { t, n, func };
        const action = {
          kind: 'isolation',
          trunk: tree.id,
          node: tree.nodeIds[n]!,
          function: system.plan.functions[func]!,
        } as const;
        const rows = [errors.good, errors.weak, errors.dead];
        return { action, bits: channelBits(isolatedChances(swept, at), rows) };
      }),
    ),
  );
}

/** How the function would be found there with everything past it disconnected. */
export function isolatedChances({ site, masses }: SweptSite, at: Isolated): ConditionChances {
  const chance = (weakToo: boolean) =>
    exp(logEvidenceIfIsolated(site, at, weakToo) - masses.logEvidence);
  const good = Math.min(1, chance(false));
  const works = Math.min(1, Math.max(good, chance(true)));
  return [good, works - good, 1 - works];
}

function stationsToIsolate(swept: SweptSite, t: number, core: CoreSet): number[] {
  const { tree } = swept.site.trunks[t]!;
  const below = shortsBehind(swept, t, core);
  const all = tree.first.reduce((sum, n) => sum + below[n]!, 0);
  if (all < LEAST_SHORT) return [];
  const past = (n: number) => tree.children[n]!.reduce((sum, child) => sum + below[child]!, 0);
  return [...tree.nodeIds.keys()]
    .filter((n) => tree.isStation[n] && tree.children[n]!.length > 0)
    .sort((a, b) => Math.abs(past(a) - all / 2) - Math.abs(past(b) - all / 2) || a - b)
    .slice(0, Math.max(1, Math.min(MOST_STATIONS, Math.floor(MOST_SWEPT_NODES / tree.count))));
}

/** By node: mean number of shorts of the core from the span into it onwards. */
function shortsBehind(swept: SweptSite, t: number, core: CoreSet): Float64Array {
  const { tree, effects } = swept.site.trunks[t]!;
  const { spans } = swept.trunks[t]!;
  const below = new Float64Array(tree.count);
  for (let n = tree.count - 1; n >= 0; n--) {
    below[n]! += spanMass(spans, effects, n, ({ shorts }) => (shorts & core) > 0);
    if (core === SUPPLY) below[n]! += shortOfStation(swept, t, n);
    const feeder = tree.parent[n]!;
    if (feeder >= 0) below[feeder]! += below[n]!;
  }
  return below;
}

function shortOfStation(swept: SweptSite, t: number, n: number): number {
  const states = stationStates(swept, t, n);
  const { system } = swept.site;
  if (!states) return 0;
  let short = 0;
  for (let group = 0; group < swept.site.headEnd.count; group++)
    short += states[stateAt(system, group, system.stationClasses.count, 0)]!;
  return short;
}
