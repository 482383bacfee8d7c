// The office's checks are chosen with bounds and with sweeps of what changed alone: they must be those that weighing every
// check anew after whole sweeps chooses.
import { expect, test } from '@jest/globals';
import { compareActions, type RankedCheck } from '#app/locator/checks/check-action.js';
import { minutesOf, officeMinutes } from '#app/locator/checks/check-minutes.js';
import { LEAST_BITS } from '#app/locator/checks/checks-request.js';
import { functionCheckBits, rowsOf } from '#app/locator/checks/function-check-bits.js';
import {
  type FunctionCheck,
  functionChecks,
  NOTHING_LOOKED_AT,
} from '#app/locator/checks/function-checks.js';
import { siteGivenSetting, siteGivenStation } from '#app/locator/checks/site-given.js';
import { isAbout, troubleOf } from '#app/locator/checks/trouble.js';
import {
  DEFAULT_ERROR_RATES,
  FUNCTIONS,
  type LocateRequest,
  officeChecks,
} from '#app/locator/index.js';
import { sortLargestFirst } from '#app/locator/posterior/order.js';
import { siteModel, type SiteModel } from '#app/locator/sweep/site.js';
import { sweepSite } from '#app/locator/sweep/sweep-site.js';
import { DEFAULT_PLAN } from '#app/plan/default-plan.js';
import { tablesOf } from '#app/plan/plan-tables.js';
import { seededRandom } from '#app/statistics/seeded-random.js';

const PLAN = tablesOf(DEFAULT_PLAN);
const { office } = DEFAULT_ERROR_RATES;

function given(site: SiteModel, check: FunctionCheck, outcome: number): SiteModel {
  const rows = rowsOf(PLAN, check, office);
  return check.at === null
    ? siteGivenSetting(site, check.action, rows, outcome)
    : siteGivenStation(site, check.at, rows, outcome);
}

function plainly(request: LocateRequest): RankedCheck[] {
  const site = siteModel(request, DEFAULT_ERROR_RATES, undefined, { apart: PLAN.allFunctions });
  let left = functionChecks(request, site, 'office', NOTHING_LOOKED_AT).filter(({ action }) =>
    isAbout(PLAN, troubleOf(PLAN, request), action),
  );
  let branches = [{ swept: sweepSite(site)!, chance: 1 }];
  const chosen: RankedCheck[] = [];
  while (chosen.length < 3) {
    const sums = left.map(() => 0);
    for (const { swept, chance } of branches)
      functionCheckBits(swept, left, office).forEach((bits, i) => (sums[i]! += chance * bits));
    const [best] = sortLargestFirst(
      left.flatMap((check, i) => {
        const [informationBits, minutes] = [
          sums[i]!,
          minutesOf(check.action, officeMinutes(DEFAULT_PLAN)),
        ];
        const figures = { informationBits, minutes, bitsPerMinute: informationBits / minutes };
        return informationBits < LEAST_BITS ? [] : [{ check, ...figures }];
      }),
      (one) => one.bitsPerMinute,
      (a, b) => compareActions(a.check.action, b.check.action),
    );
    if (best === undefined) break;
    const { check, ...figures } = best;
    chosen.push({ action: check.action, ...figures });
    left = left.filter((one) => one !== check);
    branches = branches.flatMap(({ swept, chance }) =>
      rowsOf(PLAN, check, office)[0]!.flatMap((_, outcome) => {
        const after = sweepSite(given(swept.site, check, outcome));
        const more = after ? after.masses.logEvidence - swept.masses.logEvidence : -Infinity;
        return after ? [{ swept: after, chance: chance * Math.exp(more) }] : [];
      }),
    );
  }
  return chosen;
}

/** Some trunks with tees, of which some callers told something of some rooms. */
function randomRequest(seed: number): LocateRequest {
  const random = seededRandom(seed);
  const below = (count: number) => Math.floor(random() * count);
  const trunks = Array.from({ length: 1 + below(3) }, (_, t) => ({
    id: `T${t}`,
    nodes: Array.from({ length: 3 + below(5) }, (_, n) => ({
      id: `S${n}`,
      kind: 'station' as const,
      cableMetres: 5 + below(40),
      fedFrom: n === 0 ? null : `S${random() < 0.75 ? n - 1 : below(n)}`,
    })),
  }));
  const silent = below(trunks.length);
  const observations = trunks.flatMap(({ id, nodes }, t) =>
    nodes
      .filter(() => random() < 0.4)
      .map(({ id: node }, n) => ({
        trunk: id,
        node,
        function: FUNCTIONS[below(3)]!,
        outcome: t === silent && n > 0 ? ('fails' as const) : ('works' as const),
        ...(random() < 0.5 && { informant: { id: `p${below(3)}`, kind: 'office' as const } }),
      })),
  );
  return { trunks, exposureDays: 200, observations };
}

test('the checks for an office are those that weighing all of them each time would choose', () => {
  const kinds = new Set<string>();
  let third = 0;
  for (let seed = 1; seed <= 9; seed++) {
    const request = randomRequest(seed);
    const [found, expected] = [officeChecks({ request }), plainly(request)];
    expect([seed, found.map(({ action }) => action)]).toEqual([
      seed,
      expected.map(({ action }) => action),
    ]);
    found.forEach((one, i) =>
      expect(one.informationBits).toBeCloseTo(expected[i]!.informationBits, 11),
    );
    for (const { action } of found) kinds.add(action.kind);
    third += found.length === 3 ? 1 : 0;
  }
  expect(third).toBeGreaterThan(4);
  expect([...kinds].sort()).toEqual(['function', 'head-end', 'volume-knob']);
});
