/* eslint-disable @typescript-eslint/no-non-null-assertion -- tables of one site: every index is in range by construction,
   and a fallback value at each read would hide a wrong one */
import { type InformantErrors, type InformantKind } from '../../plan/error-rates.js';
import { SPAN_PARTS } from '../../plan/look-errors.js';

import { channelBits, informationBits } from '../posterior/information.js';
import { mixPosteriors, posteriorOf } from '../posterior/posterior.js';
import type { WeighedEvidence } from '../posterior/weigh-evidence.js';
import { massesPerComponent, massesPerSpan } from '../sweep/descend-span.js';
import type { CheckAction } from './check-action.js';
import { lookRows } from './check-outcomes.js';

/**
 * I(outcome; what is looked at) of functions, settings and junctions, with quiet worlds weighing less; null of other checks.
 * Of a look by the least that is missed: it tells less where more is.
 */
export function ownBits(
  { swept, quiet, quietness }: WeighedEvidence,
  errors: InformantErrors,
  kind: InformantKind,
): (action: CheckAction) => number | null {
  const { site } = swept;
  const whole = posteriorOf(swept);
  const posterior = quiet ? mixPosteriors(quietness, whole, posteriorOf(quiet)) : whole;
  const places = new Map(
    site.trunks.map(({ tree }, t) => [
      tree.id,
      { t, at: new Map(tree.nodeIds.map((id, n) => [id, n])) },
    ]),
  );
  const rows = lookRows(site.system.plan.plan, kind, errors);
  const look = (faulty: number) => channelBits([1 - faulty, faulty], rows);
  return (action) => {
    if (action.kind === 'head-end') {
      const mode = site.headEnd.modes.indexOf(action.setting);
      return look(posterior.headEnd[mode + 1] ?? 0);
    }
    const { t, at } = places.get(action.trunk)!;
    if (action.kind === 'function') {
      const conditions = posterior.stations[t]![at.get(action.node)!]?.conditions;
      const from = site.system.plan.functions.indexOf(action.function) * 3;
      const [good = 0, weak = 0, dead = 0] = conditions?.subarray(from, from + 3) ?? [];
      return informationBits(good, weak, dead, errors);
    }
    if (action.kind !== 'open-junction') return null;
    const { effects } = site.trunks[t]!;
    const part = SPAN_PARTS.indexOf(action.component);
    const ok =
      at.get(action.to)! * massesPerSpan(effects) + (part + 1) * massesPerComponent(effects) - 1;
    return look(1 - Math.min(1, posterior.trunks[t]!.spans[ok]!));
  };
}
