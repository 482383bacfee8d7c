/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { channelBits } from '../posterior/information.js';
import { setConditions, type StationAt } from '../posterior/conditions.js';
import type { InformantErrors } from '../../plan/error-rates.js';
import type { PlanTables } from '../../plan/plan-tables.js';
import { groupOf } from '../sweep/head-end-groups.js';
import type { SweptStations } from '../sweep/sweep-site.js';
import { type OutcomeRows, settingRows } from './check-outcomes.js';
import { functionChances } from './condition-chances.js';
import type { FunctionCheck } from './function-checks.js';
import type { StationCheck } from './site-given.js';
import { stationStates } from './station-states.js';

/** P(outcome | truth): by condition for a function, by right and wrong for a setting. */
export function rowsOf(
  plan: PlanTables,
  { action }: FunctionCheck,
  errors: InformantErrors,
): OutcomeRows {
  return action.kind === 'head-end'
    ? settingRows(plan, action.setting, errors)
    : [errors.good, errors.weak, errors.dead];
}

/** What each check would tell, in bits, in the order of the list. */
export function functionCheckBits(
  swept: SweptStations,
  checks: readonly FunctionCheck[],
  errors: InformantErrors,
): number[] {
  const { headEnd, system } = swept.site;
  const conditionsAt = plainConditions(swept);
  return checks.map((check, i) => {
    const rows = rowsOf(system.plan, check, errors);
    if (check.at === null) {
      const group = groupOf(headEnd, check.action.setting);
      const wrong = group === null ? 0 : (swept.masses.groups[group] ?? 0);
      return channelBits([Math.max(0, 1 - wrong), wrong], rows);
    }
    const { t, n, func, mended } = check.at;
    if (mended === 0) return channelBits(conditionsAt(check.at, checks[i + 1]?.at), rows);
    const states = stationStates(swept, t, n);
    const disables = headEnd.disables[swept.site.trunks[t]!.zone[n]!]!;
    return states ? channelBits(functionChances(system, states, disables, func, mended), rows) : 0;
  });
}

/**
 * P(good), P(weak), P(dead) of a function at a station as it is: those of one station are worked out together where the next check
 * is there too.
 */
function plainConditions(swept: SweptStations) {
  const { functions } = swept.site.headEnd;
  const conditions = new Float64Array(functions * 3);
  let [ofTrunk, ofNode] = [-1, -1];
  return ({ t, n, func }: StationCheck, next: StationCheck | null | undefined): number[] => {
    if (t !== ofTrunk || n !== ofNode) {
      const areMore = next?.t === t && next.n === n;
      [ofTrunk, ofNode] = areMore ? [t, n] : [-1, -1];
      const some = areMore ? { first: 0, end: functions } : { first: func, end: func + 1 };
      setConditions(stationAt(swept, t, n), conditions, some);
    }
    return [conditions[func * 3]!, conditions[func * 3 + 1]!, conditions[func * 3 + 2]!];
  };
}

function stationAt({ site, live, trunks }: SweptStations, t: number, n: number): StationAt {
  const { station, likelihood, zone, space } = site.trunks[t]!;
  const masses = trunks[t]!;
  const slot = masses.slots[n]!;
  return {
    site,
    station: station[n]!,
    likelihood: likelihood[n]?.table ?? null,
    masses,
    feedClasses: space.classes[0]!,
    slot,
    live: live(slot.contexts),
    zone: zone[n]!,
  };
}
