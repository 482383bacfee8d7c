import type { InformantErrors } from '../../plan/error-rates.js';
import type { SiteModel } from '../sweep/site.js';
import { compareIds } from '../../drawing/drawn-tree.js';
import type { StationPosterior } from './conditions.js';
import { informationBits } from './information.js';
import type { Check, Prediction } from './locate-result.js';
import { sortLargestFirst } from './order.js';

type HeardCheck = Extract<Check, { kind: 'hear' }>;

/** What each station's functions do, and what a technician's look at each would tell. */
export function stationAnswers(
  site: SiteModel,
  stations: readonly (readonly (StationPosterior | null)[])[],
  technician: InformantErrors,
): { predictions: Prediction[]; checks: HeardCheck[] } {
  const { functions } = site.system.plan;
  const predictions: Prediction[] = [];
  const checks: HeardCheck[] = [];
  site.trunks.forEach(({ tree: { id: trunk, nodeIds, fitted } }, t) => {
    nodeIds.forEach((node, n) => {
      const conditions = stations[t]?.[n]?.conditions;
      if (!conditions) return;
      for (const [func, name] of functions.entries()) {
        if (!((fitted[n] ?? 0) & (1 << func))) continue;
        const good = conditions[func * 3] ?? 0;
        const weak = conditions[func * 3 + 1] ?? 0;
        const dead = conditions[func * 3 + 2] ?? 0;
        const bits = informationBits(good, weak, dead, technician);
        predictions.push({ trunk, node, function: name, works: good + weak });
        checks.push({ kind: 'hear', trunk, node, function: name, informationBits: bits });
      }
    });
  });
  return {
    predictions,
    checks: sortLargestFirst(
      checks,
      (check) => check.informationBits,
      (a, b) =>
        compareIds(a.trunk, b.trunk) ||
        compareIds(a.node, b.node) ||
        functions.indexOf(a.function) - functions.indexOf(b.function),
    ),
  };
}
