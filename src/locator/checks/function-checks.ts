import type { InformantKind } from '../../plan/error-rates.js';
import type { FunctionName } from '../../plan/functions.js';
import { type PlanTables, settingsAmong } from '../../plan/plan-tables.js';
import type { LocateRequest, RequestObservation } from '../request/locate-request.js';
import type { SiteModel } from '../sweep/site.js';
import type { CheckAction, LookedAt } from './check-action.js';
import { volumeShare } from './condition-chances.js';
import type { StationCheck } from './site-given.js';

export type FunctionCheck =
  | { action: Extract<CheckAction, { kind: 'function' | 'volume-knob' }>; at: StationCheck }
  | { action: Extract<CheckAction, { kind: 'head-end' }>; at: null };

export const NOTHING_LOOKED_AT: LookedAt = { settings: [], knobs: [] };

/**
 * What either kind of informant can try without a tool, leaving out what that kind told already: each function of each
 * station, the volume knob where a sound is missing, the settings of the head-end.
 */
export function functionChecks(
  request: LocateRequest,
  site: SiteModel,
  kind: InformantKind,
  lookedAt: LookedAt,
): FunctionCheck[] {
  const observations = request.observations ?? [];
  const told = new Set(
    observations
      .filter(({ informant }) => (informant?.kind ?? 'office') === kind)
      .map((one) => pointKey(one.trunk, one.node, one.function)),
  );
  const looked = new Set(lookedAt.knobs.map(({ trunk, node }) => pointKey(trunk, node)));
  const { plan } = site.system;
  const checks: FunctionCheck[] = settingsAmong(plan, site.headEnd.modes)
    .filter((setting) => !lookedAt.settings.includes(setting))
    .map((setting) => ({ action: { kind: 'head-end', setting }, at: null }));
  site.trunks.forEach(({ tree, weights, station }, t) =>
    tree.nodeIds.forEach((node, n) => {
      if (!station[n]) return;
      const trunk = tree.id;
      plan.functions.forEach((name, func) => {
        const isFitted = ((tree.fitted[n] ?? 0) & (1 << func)) !== 0;
        if (!isFitted || told.has(pointKey(trunk, node, name))) return;
        const action = { kind: 'function', trunk, node, function: name } as const;
        checks.push({ action, at: { t, n, func, mended: 0 } });
      });
      const missing = missingSound(plan, observations, trunk, node);
      const table = weights[n]?.station;
      if (missing === undefined || table === undefined || looked.has(pointKey(trunk, node))) return;
      const action = { kind: 'volume-knob', trunk, node, function: missing } as const;
      const func = plan.functions.indexOf(missing);
      checks.push({ action, at: { t, n, func, mended: volumeShare(plan, table) } });
    }),
  );
  return checks;
}

/** The first function, in the plan's order, that was missed here and that a knob turned down would silence. */
function missingSound(
  { functions, volumeMode, stationDisables }: PlanTables,
  observations: readonly RequestObservation[],
  trunk: string,
  node: string,
): FunctionName | undefined {
  if (volumeMode === undefined) return undefined;
  return functions.find(
    (name, func) =>
      stationDisables[volumeMode] & (1 << func) &&
      observations.some(
        (one) =>
          one.trunk === trunk &&
          one.node === node &&
          one.function === name &&
          one.outcome !== 'works',
      ),
  );
}

function pointKey(...parts: string[]): string {
  return JSON.stringify(parts);
}
