import { power } from '../../elementary/power.js';
import { CONFUSED_LIKELIHOOD } from '../../plan/error-rates.js';
import type { SiteModel } from '../sweep/site.js';
import { trunkLikelihood } from '../sweep/trunk-model.js';

/** The same evidence as if nobody had been asked for one of the request's observations, which is told of this node. */
export function withoutObservation(
  site: SiteModel,
  { trunk: t, node, observation }: { trunk: number; node: number; observation: number },
): SiteModel {
  const trunks = site.trunks.map((trunk, at) => {
    if (at !== t) return trunk;
    const heard = (trunk.statements[node] ?? []).map((ofOne) => {
      const items = ofOne.items.filter((one) => one.observation !== observation);
      if (items.length === ofOne.items.length) return ofOne;
      return { ...ofOne, items, ifConfused: power(CONFUSED_LIKELIHOOD, items.length) };
    });
    const alone = {
      ...trunk,
      statements: trunk.statements.map((_, n) => (n === node ? heard : [])),
    };
    const own = trunkLikelihood(alone, site.headEnd)[node] ?? null;
    return { ...trunk, likelihood: trunk.likelihood.map((one, n) => (n === node ? own : one)) };
  });
  return { ...site, trunks };
}
