/* eslint-disable @typescript-eslint/no-non-null-assertion -- indices are those of the model's own lists */
import { ln } from '../../elementary/ln.js';
import { sortLargestFirst } from '../posterior/order.js';
import type { Statement } from '../sweep/statements.js';
import {
  logSweptMassAgain,
  type SpareSweeps,
  sweepSiteDown,
  type SweptUp,
} from '../sweep/sweep-site.js';
import { weightsWithout } from './weights-without.js';
import { withoutObservation } from './without-observation.js';

export interface SurprisingObservation {
  /** Its place in the request's list. */
  observation: number;
  /** ln P(it | everything else that was told): the lower, the more surprising. */
  logChance: number;
}

/** Each observation against all the others, the most surprising first. One sweep down tells of nearly all. */
export function leaveOneOut(up: SweptUp, spare: SpareSweeps): SurprisingObservation[] {
  const { logEvidence } = up.masses;
  const swept = logEvidence === -Infinity ? null : sweepSiteDown(up, { stationsAlone: true });
  const each: SurprisingObservation[] = [];
  up.site.trunks.forEach(({ statements }, trunk) => {
    statements.forEach((heard, node) => {
      heard.forEach(({ items }, v) => {
        const weights = swept && weightsWithout(swept, trunk, node, v);
        items.forEach((item, s) => {
          if (item.observation < 0) return;
          const place = { trunk, node, observation: item.observation };
          const logChance =
            weights === null || mayRuleOut(item)
              ? logEvidence - logSweptMassAgain(up, withoutObservation(up.site, place), spare)
              : -ln(weights[s]!);
          each.push({ observation: item.observation, logChance });
        });
      });
    });
  });
  return sortLargestFirst(
    each,
    ({ logChance }) => -logChance,
    (a, b) => a.observation - b.observation,
  );
}

/** Whether there may be worlds that it alone speaks against, of which nothing is left to weigh. */
function mayRuleOut({ likelihood }: Statement): boolean {
  return likelihood.includes(0);
}
