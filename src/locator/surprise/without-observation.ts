import { power } from '../../elementary/power.js';
import { CONFUSED_LIKELIHOOD } from '../../plan/error-rates.js';
import type { SiteModel } from '../sweep/site.js';
import { trunkLikelihood } from '../sweep/trunk-model.js';

/** The same evidence as if nobody had been asked for one of the request's observations. */
export function withoutObservation(site: SiteModel, observation: number): SiteModel {
  const trunks = site.trunks.map((trunk) => {
    const isHere = trunk.statements.some((heard) =>
      heard.some(({ items }) => items.some((one) => one.observation === observation)),
    );
    if (!isHere) return trunk;
    const statements = trunk.statements.map((heard) =>
      heard.map((ofOne) => {
        const items = ofOne.items.filter((one) => one.observation !== observation);
        if (items.length === ofOne.items.length) return ofOne;
        return { ...ofOne, items, ifConfused: power(CONFUSED_LIKELIHOOD, items.length) };
      }),
    );
    return {
      ...trunk,
      statements,
      likelihood: trunkLikelihood({ ...trunk, statements }, site.headEnd),
    };
  });
  return { ...site, trunks };
}
