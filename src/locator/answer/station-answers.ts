import { DEFAULT_ERROR_RATES } from '../model/error-rates.js';
import { FUNCTIONS } from '../model/functions.js';
import type { SiteModel } from '../sweep/site.js';
import { compareIds } from '../sweep/trunk-tree.js';
import type { StationPosterior } from './conditions.js';
import { informationBits } from './information.js';
import type { Check, Prediction } from './locate-result.js';
import { sortLargestFirst } from './order.js';

interface StationFunction {
  trunk: string;
  node: string;
  func: number;
  good: number;
  weak: number;
  dead: number;
}

function stationFunctions(
  site: SiteModel,
  stations: readonly (readonly (StationPosterior | null)[])[],
): StationFunction[] {
  const list: StationFunction[] = [];
  site.trunks.forEach(({ tree }, t) =>
    tree.nodeIds.forEach((node, n) => {
      const conditions = stations[t]?.[n]?.conditions;
      if (!conditions) return;
      for (let func = 0; func < FUNCTIONS.length; func++) {
        const good = conditions[func * 3] ?? 0;
        const weak = conditions[func * 3 + 1] ?? 0;
        const dead = conditions[func * 3 + 2] ?? 0;
        list.push({ trunk: tree.id, node, func, good, weak, dead });
      }
    }),
  );
  return list;
}

const nameOf = (func: number) => FUNCTIONS[func] ?? 'lamp';

/** What each station's functions do, and what a technician's look at each would tell. */
export function stationAnswers(
  site: SiteModel,
  stations: readonly (readonly (StationPosterior | null)[])[],
): { predictions: Prediction[]; checks: Check[] } {
  const list = stationFunctions(site, stations);
  const predictions = list.map(({ trunk, node, func, good, weak }) => ({
    trunk,
    node,
    function: nameOf(func),
    works: good + weak,
  }));
  const checks = list.map(({ trunk, node, func, good, weak, dead }) => ({
    trunk,
    node,
    function: nameOf(func),
    informationBits: informationBits(good, weak, dead, DEFAULT_ERROR_RATES.technician),
  }));
  return {
    predictions,
    checks: sortLargestFirst(
      checks,
      (check) => check.informationBits,
      (a, b) =>
        compareIds(a.trunk, b.trunk) ||
        compareIds(a.node, b.node) ||
        FUNCTIONS.indexOf(a.function) - FUNCTIONS.indexOf(b.function),
    ),
  };
}
