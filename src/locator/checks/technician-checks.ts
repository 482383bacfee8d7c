/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { channelBits } from '../posterior/information.js';
import { sortLargestFirst } from '../posterior/order.js';
import { massesPerComponent, massesPerSpan } from '../sweep/descend-span.js';
import { siteModel } from '../sweep/site.js';
import { type SweptSite, sweepSite } from '../sweep/sweep-site.js';
import { type CheckAction, compareActions, type RankedCheck } from './check-action.js';
import { minutesOf, technicianMinutes } from './check-minutes.js';
import { lookRows, type OutcomeRows, VOLTS_ROWS } from './check-outcomes.js';
import { planOf } from '../request/plan-of.js';
import { type ChecksRequest, LEAST_BITS } from './checks-request.js';
import { supplyChances } from './condition-chances.js';
import { continuityChecks } from './continuity-checks.js';
import { functionCheckBits } from './function-check-bits.js';
import { functionChecks, NOTHING_LOOKED_AT } from './function-checks.js';
import { isolationChecks } from './isolation-checks.js';
import { stationStates } from './station-states.js';
import { isAbout, troubleOf } from './trouble.js';

interface Weighed {
  action: CheckAction;
  bits: number;
}

/** What was told with the trunks whole, every function apart; null where that has probability 0. */
export function sweptWhole({ request, errors, expected }: ChecksRequest): SweptSite | null {
  const options = { apart: planOf(request).allFunctions, wholeOnly: true };
  return sweepSite(siteModel(request, errors ?? planOf(request).plan.errors, expected, options));
}

/**
 * Every check that a technician can make about the trouble and that tells at least LEAST_BITS, the most telling for each minute first;
 * equals by what they are about. Each is weighed by itself and without the way there.
 *
 * @throws InvalidLocateRequest for too many informants, as `locate` does
 */
export function technicianChecks(asked: ChecksRequest, swept = sweptWhole(asked)): RankedCheck[] {
  if (swept === null) return [];
  const { request, lookedAt = NOTHING_LOOKED_AT } = asked;
  const { plan } = planOf(request);
  const { errors = plan.errors, minutes = technicianMinutes(plan) } = asked;
  const looks = functionChecks(request, swept.site, 'technician', lookedAt);
  const bits = functionCheckBits(swept, looks, errors.technician);
  const weighed: Weighed[] = [
    ...looks.map(({ action }, i) => ({ action, bits: bits[i]! })),
    ...voltsChecks(swept),
    ...junctionChecks(swept, lookRows(planOf(request).plan, 'technician', errors.technician)),
    ...continuityChecks(swept),
    ...isolationChecks(swept, errors.technician),
  ];
  const trouble = troubleOf(swept.site.system.plan, request);
  const ranked = weighed
    .filter(
      ({ action, bits: tells }) =>
        tells >= LEAST_BITS && isAbout(swept.site.system.plan, trouble, action),
    )
    .map((one) => {
      const takes = minutesOf(one.action, minutes);
      const { action, bits: informationBits } = one;
      return { action, informationBits, minutes: takes, bitsPerMinute: informationBits / takes };
    });
  return sortLargestFirst(
    ranked,
    (one) => one.bitsPerMinute,
    (a, b) => compareActions(a.action, b.action),
  );
}

function voltsChecks(swept: SweptSite): Weighed[] {
  return swept.site.trunks.flatMap(({ tree }, t) =>
    tree.nodeIds.flatMap((node, n) => {
      const states = stationStates(swept, t, n);
      if (!states) return [];
      const action = { kind: 'supply-volts', trunk: tree.id, node } as const;
      return { action, bits: channelBits(supplyChances(swept.site.system, states), VOLTS_ROWS) };
    }),
  );
}

/** Each junction opened by itself. */
function junctionChecks({ site, trunks }: SweptSite, rows: OutcomeRows): Weighed[] {
  return site.trunks.flatMap(({ tree, effects }, t) =>
    tree.nodeIds.flatMap((to, n) => {
      const from = tree.nodeIds[tree.parent[n]!] ?? null;
      return (['junction-out', 'junction-in'] as const).map((component) => {
        const order = component === 'junction-out' ? 0 : 2;
        const at = n * massesPerSpan(effects) + order * massesPerComponent(effects);
        const masses = trunks[t]!.spans.subarray(at, at + massesPerComponent(effects));
        const ok = masses[effects.count]!;
        const faulty = masses.reduce((sum, mass, e) => (e < effects.count ? sum + mass : sum), 0);
        const action = { kind: 'open-junction', trunk: tree.id, from, to, component } as const;
        return { action, bits: channelBits([ok, faulty], rows) };
      });
    }),
  );
}
