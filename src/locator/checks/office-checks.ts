import { exp } from '../../elementary/exp.js';
import { sortLargestFirst } from '../posterior/order.js';
import { type ErrorRates, type InformantErrors } from '../../plan/error-rates.js';
import { siteModel, type SiteModel } from '../sweep/site.js';
import {
  type SpareSweeps,
  sweepSite,
  sweepSiteAgain,
  type SweptSite,
  type SweptStations,
} from '../sweep/sweep-site.js';
import { compareActions, type RankedCheck } from './check-action.js';
import { minutesOf, officeMinutes } from './check-minutes.js';
import { planOf } from '../request/plan-of.js';
import { type ChecksRequest, LEAST_BITS } from './checks-request.js';
import { functionCheckBits, rowsOf } from './function-check-bits.js';
import { type FunctionCheck, functionChecks, NOTHING_LOOKED_AT } from './function-checks.js';
import { isAbout, troubleOf } from './trouble.js';
import { siteGivenSetting, siteGivenStation } from './site-given.js';

/** More than so many nobody does before help is sent. */
export const MOST_OFFICE_CHECKS = 3;

/** So many checks are weighed at a time, the most promising first. */
const AT_A_TIME = 64;

/** Numbers nearer than this come of sums done in another order. */
const ROUNDING = 1e-9;

/** The site after some outcomes of the checks chosen so far, and the chance of those outcomes. */
interface Branch {
  swept: SweptStations;
  chance: number;
}

/** A check with what it adds to those chosen, or with the most that it can add. */
interface Candidate {
  check: FunctionCheck;
  minutes: number;
  bits: number;
}

/**
 * The checks worth doing now by an office without walking: first the one that tells most for each of its minutes, then
 * the one that adds most to it, and so on; `informationBits` is what each adds to those before it. By the chain rule
 * their sum is what they tell together, exactly: the sweep is done again for every outcome of what is chosen already. Not
 * asked again is what any office told; nothing is asked that is not about the trouble or adds less than LEAST_BITS.
 *
 * Given what is true, what one check says does not depend on another: none adds more to some than it adds to fewer of
 * them. So what it added before is a bound, and nearly all of thousands need not be weighed again.
 *
 * @throws InvalidLocateRequest for too many informants, as `locate` does
 */
export function officeChecks(asked: ChecksRequest, swept = sweptForOffice(asked)): RankedCheck[] {
  if (swept === null) return [];
  const { request, lookedAt = NOTHING_LOOKED_AT } = asked;
  const { plan } = planOf(request);
  const { errors = plan.errors, minutes = officeMinutes(plan) } = asked;
  const { site } = swept;
  const trouble = troubleOf(site.system.plan, request);
  const checks = functionChecks(request, site, 'office', lookedAt).filter(({ action }) =>
    isAbout(site.system.plan, trouble, action),
  );
  const bits = functionCheckBits(swept, checks, errors.office);
  let left = checks
    .map((check, i) => ({ check, minutes: minutesOf(check.action, minutes), bits: bits[i] ?? 0 }))
    .filter((one) => one.bits >= LEAST_BITS);
  const branches = new Branches(swept, errors);
  const chosen: RankedCheck[] = [];
  for (;;) {
    const [best] = chosen.length === 0 ? inOrder(left) : mostAdded(left, branches, errors.office);
    if (best === undefined) return chosen;
    chosen.push(ranked(best));
    if (chosen.length === MOST_OFFICE_CHECKS) return chosen;
    left = left.filter(({ check, bits: most }) => check !== best.check && most >= LEAST_BITS);
    if (left.length > 0) branches.choose(best.check, waysToStations(site, left));
  }
}

/** What is known before anything is asked, what was told with the trunks whole; null where that has probability 0. */
export function sweptForOffice({
  request,
  errors = planOf(request).plan.errors,
  expected,
}: ChecksRequest): SweptSite | null {
  const options = { apart: planOf(request).allFunctions, wholeOnly: true };
  return sweepSite(siteModel(request, errors, expected, options), { stationsAlone: true });
}

const perMinute = (one: Candidate) => one.bits / one.minutes;

function ranked(one: Candidate): RankedCheck {
  const { action } = one.check;
  const bitsPerMinute = perMinute(one);
  return { action, informationBits: one.bits, minutes: one.minutes, bitsPerMinute };
}

function inOrder(candidates: readonly Candidate[]): Candidate[] {
  return sortLargestFirst(candidates, perMinute, (a, b) =>
    compareActions(a.check.action, b.check.action),
  );
}

/** Weighs the most promising until none of the others can add as much; those weighed have then what they add. */
function mostAdded(
  left: readonly Candidate[],
  branches: Branches,
  errors: InformantErrors,
): Candidate[] {
  const promising = inOrder(left);
  const weighed: Candidate[] = [];
  let most = -Infinity;
  for (let from = 0; from < promising.length; from += AT_A_TIME) {
    const some = promising.slice(from, from + AT_A_TIME);
    const [first] = some;
    if (first === undefined || perMinute(first) < most - ROUNDING) break;
    const bits = branches.addedBits(
      some.map(({ check }) => check),
      errors,
    );
    some.forEach((one, i) => {
      one.bits = bits[i] ?? 0;
      if (one.bits < LEAST_BITS) return;
      weighed.push(one);
      most = Math.max(most, perMinute(one));
    });
  }
  return inOrder(weighed);
}

/** By trunk, 1 at every node on the way to a station of the checks. */
function waysToStations(site: SiteModel, of: readonly Candidate[]): Map<number, Uint8Array> {
  const ways = new Map<number, Uint8Array>();
  for (const { check } of of) {
    if (check.at === null) continue;
    const { t, n: station } = check.at;
    const { parent = [], count = 0 } = site.trunks[t]?.tree ?? {};
    const marks = ways.get(t) ?? new Uint8Array(count);
    ways.set(t, marks);
    for (let n = station; n >= 0 && marks[n] === 0; n = parent[n] ?? -1) marks[n] = 1;
  }
  return ways;
}

/** What may turn out of the checks chosen so far. */
class Branches {
  private list: Branch[];
  private readonly spare: SpareSweeps = new Map();

  constructor(
    private readonly before: SweptSite,
    private readonly errors: ErrorRates,
  ) {
    this.list = [{ swept: before, chance: 1 }];
  }

  /** What each check adds, on average over what those chosen may turn out to say. */
  addedBits(checks: readonly FunctionCheck[], errors: InformantErrors): number[] {
    const sums = checks.map(() => 0);
    for (const { swept, chance } of this.list)
      functionCheckBits(swept, checks, errors).forEach((bits, i) => {
        sums[i] = (sums[i] ?? 0) + chance * bits;
      });
    return sums;
  }

  /** `ways` as sweepSiteAgain takes them, to the stations of the checks that are left. */
  choose(check: FunctionCheck, ways: ReadonlyMap<number, Uint8Array>): void {
    const { office } = this.errors;
    const outcomes = [...(rowsOf(this.before.site.system.plan, check, office)[0]?.keys() ?? [])];
    this.list = this.list.flatMap(({ swept, chance }) =>
      outcomes.flatMap((outcome) => {
        const site = siteGiven(swept.site, check, office, outcome);
        const given = sweepSiteAgain(this.before, site, ways, this.spare);
        if (given === null) return [];
        const share = exp(given.masses.logEvidence - swept.masses.logEvidence);
        return { swept: given, chance: chance * share };
      }),
    );
  }
}

function siteGiven(
  site: SiteModel,
  check: FunctionCheck,
  errors: InformantErrors,
  outcome: number,
): SiteModel {
  const rows = rowsOf(site.system.plan, check, errors);
  return check.at === null
    ? siteGivenSetting(site, check.action, rows, outcome)
    : siteGivenStation(site, check.at, rows, outcome);
}
