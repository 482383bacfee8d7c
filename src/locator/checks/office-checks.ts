import { sortLargestFirst } from '../posterior/order.js';
import { DEFAULT_ERROR_RATES, type InformantErrors } from '../../plan/error-rates.js';
import { ALL_FUNCTIONS } from '../../plan/functions.js';
import { siteModel, type SiteModel } from '../sweep/site.js';
import { type SweptSite, sweepSite } from '../sweep/sweep-site.js';
import { compareActions, type RankedCheck } from './check-action.js';
import { minutesOf, OFFICE_MINUTES } from './check-minutes.js';
import { type ChecksRequest, LEAST_BITS } from './checks-request.js';
import { functionCheckBits, rowsOf } from './function-check-bits.js';
import { type FunctionCheck, functionChecks, NOTHING_LOOKED_AT } from './function-checks.js';
import { isAbout, troubleOf } from './trouble.js';
import { siteGivenSetting, siteGivenStation } from './site-given.js';

/** More than so many nobody does before help is sent. */
export const MOST_OFFICE_CHECKS = 3;

/** The site after some outcomes of the checks chosen so far, and the chance of those outcomes. */
interface Branch {
  swept: SweptSite;
  chance: number;
}

/**
 * The checks worth doing now by an office without walking: first the one that tells most for each of its minutes, then
 * the one that adds most to it, and so on; `informationBits` is what each adds to those before it. By the chain rule
 * their sum is what they tell together, exactly: the sweep is done again for every outcome of what is chosen already. Not
 * asked again is what any office told; nothing is asked that is not about the trouble or adds less than LEAST_BITS.
 *
 * @throws InvalidLocateRequest for too many informants, as `locate` does
 */
export function officeChecks({
  request,
  errors = DEFAULT_ERROR_RATES,
  expected,
  lookedAt = NOTHING_LOOKED_AT,
  minutes = OFFICE_MINUTES,
}: ChecksRequest): RankedCheck[] {
  const site = siteModel(request, errors, expected, { apart: ALL_FUNCTIONS });
  const swept = sweepSite(site);
  if (swept === null) return [];
  const trouble = troubleOf(request);
  let left = functionChecks(request, site, 'office', lookedAt).filter(({ action }) =>
    isAbout(trouble, action),
  );
  let branches: Branch[] = [{ swept, chance: 1 }];
  const chosen: RankedCheck[] = [];
  while (chosen.length < MOST_OFFICE_CHECKS) {
    const bits = addedBits(branches, left, errors.office);
    const worthwhile = left.flatMap((check, i) => {
      const informationBits = bits[i] ?? 0;
      if (informationBits < LEAST_BITS) return [];
      const takes = minutesOf(check.action, minutes);
      const bitsPerMinute = informationBits / takes;
      return { check, informationBits, minutes: takes, bitsPerMinute };
    });
    const [best] = sortLargestFirst(
      worthwhile,
      (one) => one.bitsPerMinute,
      (a, b) => compareActions(a.check.action, b.check.action),
    );
    if (best === undefined) break;
    const { check, ...figures } = best;
    chosen.push({ action: check.action, ...figures });
    left = left.filter((one) => one !== check);
    if (chosen.length < MOST_OFFICE_CHECKS) branches = branch(branches, check, errors.office);
  }
  return chosen;
}

/** What each check adds, on average over what those chosen may turn out to say. */
function addedBits(
  branches: readonly Branch[],
  checks: readonly FunctionCheck[],
  errors: InformantErrors,
): number[] {
  const sums = checks.map(() => 0);
  for (const { swept, chance } of branches)
    functionCheckBits(swept, checks, errors).forEach((bits, i) => {
      sums[i] = (sums[i] ?? 0) + chance * bits;
    });
  return sums;
}

function branch(
  branches: readonly Branch[],
  check: FunctionCheck,
  errors: InformantErrors,
): Branch[] {
  const outcomes = [...(rowsOf(check, errors)[0]?.keys() ?? [])];
  return branches.flatMap(({ swept, chance }) =>
    outcomes.flatMap((outcome) => {
      const given = sweepSite(siteGiven(swept.site, check, errors, outcome));
      if (given === null) return [];
      const share = Math.exp(given.masses.logEvidence - swept.masses.logEvidence);
      return { swept: given, chance: chance * share };
    }),
  );
}

function siteGiven(
  site: SiteModel,
  check: FunctionCheck,
  errors: InformantErrors,
  outcome: number,
): SiteModel {
  const rows = rowsOf(check, errors);
  return check.at === null
    ? siteGivenSetting(site, check.action, rows, outcome)
    : siteGivenStation(site, check.at, rows, outcome);
}
