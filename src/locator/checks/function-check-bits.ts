import { channelBits } from '../posterior/information.js';
import type { InformantErrors } from '../../plan/error-rates.js';
import { groupOf } from '../sweep/head-end-groups.js';
import type { SweptSite } from '../sweep/sweep-site.js';
import { type OutcomeRows, settingRows } from './check-outcomes.js';
import { functionChances } from './condition-chances.js';
import type { FunctionCheck } from './function-checks.js';
import { type StationStates, stationStates } from './station-states.js';

/** P(outcome | truth): by condition for a function, by right and wrong for a setting. */
export function rowsOf({ action }: FunctionCheck, errors: InformantErrors): OutcomeRows {
  return action.kind === 'head-end'
    ? settingRows(action.setting, errors)
    : [errors.good, errors.weak, errors.dead];
}

/** What each check would tell, in bits, in the order of the list. */
export function functionCheckBits(
  swept: SweptSite,
  checks: readonly FunctionCheck[],
  errors: InformantErrors,
): number[] {
  const known = new Map<string, StationStates | null>();
  const { headEnd } = swept.site;
  return checks.map((check) => {
    const rows = rowsOf(check, errors);
    if (check.at === null) {
      const group = groupOf(headEnd, check.action.setting);
      const wrong = group === null ? 0 : (swept.masses.groups[group] ?? 0);
      return channelBits([Math.max(0, 1 - wrong), wrong], rows);
    }
    const { t, n, func, mended } = check.at;
    const zone = swept.site.trunks[t]?.zone[n] ?? 0;
    const key = `${t} ${n}`;
    const states = known.has(key) ? (known.get(key) ?? null) : stationStates(swept, t, n);
    known.set(key, states);
    return states
      ? channelBits(functionChances(states, headEnd.disables[zone] ?? [], func, mended), rows)
      : 0;
  });
}
