import type { RequestObservation } from '../request/locate-request.js';
import type { InformantKind } from '../../plan/error-rates.js';
import { sortLargestFirst } from '../posterior/order.js';
import { type CheckAction, compareActions, type RankedCheck } from './check-action.js';
import { minutesOf, officeMinutes } from './check-minutes.js';
import { maySettingBeLikely } from './likely-setting.js';
import { planOf } from '../request/plan-of.js';
import { type ChecksRequest, mostTried, triedOver, type Tries } from './checks-request.js';
import { MOST_OFFICE_CHECKS, officeChecks, sweptForOffice } from './office-checks.js';
import { sweptWhole, technicianChecks } from './technician-checks.js';
import { CauseBits } from './cause-bits.js';

/** A check that tells less about the causes, in bits, is not offered. */
export const LEAST_CAUSE_BITS = 0.01;

/** What an office and a technician are told to check. */
export interface ChecksOfBoth {
  readonly office: RankedCheck[];
  readonly technician: RankedCheck[];
}

/** Both of one request: what both need is worked out once. `most` as technicianChecksAboutCauses takes it. */
export function checksOfBoth(asked: ChecksRequest, most: number): ChecksOfBoth {
  const swept = sweptWhole(asked);
  let known: CauseBits | undefined;
  const causes = () => (known ??= new CauseBits(asked));
  return {
    office: officeChecksAboutCauses(asked, swept, causes),
    technician: technicianChecksAboutCauses(asked, most, swept, causes),
  };
}

/** What an office is asked: officeChecks, as far as they tell something of the causes, and a look at what is likely broken. */
export function officeChecksAboutCauses(
  asked: ChecksRequest,
  swept = sweptForOffice(asked),
  causesOf = () => new CauseBits(asked),
): RankedCheck[] {
  const checks = officeChecks(asked, swept);
  if (mostTried(asked) === 0 && (!swept || !maySettingBeLikely(asked.request, swept)))
    return checks;
  const causes = causesOf();
  const again = wordAgainstWord(asked);
  const found = ranked(causes, 'office', [...again, ...checks], MOST_OFFICE_CHECKS);
  const { settings = [] } = asked.lookedAt ?? {};
  const setting = causes.likelySetting();
  const isAsked = found.some(
    ({ action }) => action.kind === 'head-end' && action.setting === setting,
  );
  if (setting === null || isAsked || settings.includes(setting)) return found;
  const action = { kind: 'head-end', setting } as const;
  const informationBits = causes.of(action, 'office') ?? 0;
  const minutes = minutesOf(action, asked.minutes ?? officeMinutes(planOf(asked.request).plan));
  const look = { action, informationBits, minutes, bitsPerMinute: informationBits / minutes };
  return [look, ...found].slice(0, MOST_OFFICE_CHECKS);
}

/** Where as many of an office say that it works as that it does not, somebody is to try it there again. */
function wordAgainstWord({ request, minutes }: ChecksRequest): RankedCheck[] {
  const { plan } = planOf(request);
  const said = new Map<string, { one: RequestObservation; works: number; fails: number }>();
  for (const one of request.observations ?? []) {
    if ((one.informant?.kind ?? 'office') !== 'office' || one.disconnectedBelow !== undefined)
      continue;
    const key = JSON.stringify([one.trunk, one.node, one.function]);
    const known = said.get(key) ?? { one, works: 0, fails: 0 };
    known[one.outcome === 'works' ? 'works' : 'fails']++;
    said.set(key, known);
  }
  const open = [...said.values()].filter(({ works, fails }) => works > 0 && works === fails);
  return open.slice(0, MOST_OFFICE_CHECKS).map(({ one: { trunk, node, function: name } }) => {
    const action = { kind: 'function', trunk, node, function: name } as const;
    const own = minutesOf(action, minutes ?? officeMinutes(plan));
    return { action, informationBits: 0, minutes: own, bitsPerMinute: 0 };
  });
}

/**
 * Of technicianChecks the `most` of each kind of action that tell most about the causes for each minute, with that:
 * `informationBits` is the sum over the troubles, each group of them once, of I(outcome; cause). What a check tells of its
 * own condition is the most that it tells of any cause, so that few must have their outcomes tried; 24 at most, fewer at a large site. Nothing
 * is left where the causes are certain. Where nothing was missed there are no causes, and the checks stay as they are.
 */
export function technicianChecksAboutCauses(
  asked: ChecksRequest,
  most: number,
  swept = sweptWhole(asked),
  causesOf = () => new CauseBits(asked),
): RankedCheck[] {
  const checks = technicianChecks(asked, swept);
  if (mostTried(asked) === 0) return checks;
  return ranked(causesOf(), 'technician', checks, most);
}

/** The same with other bounds, those of the site's states among them; null where nothing could be tried within them. */
export function technicianChecksWeighed(
  asked: ChecksRequest,
  most: number,
  tries: Tries,
): RankedCheck[] | null {
  const causes = new CauseBits(asked);
  const own = triedOver(causes.sweptNodes, tries);
  if (own === 0) return null;
  return weighedOf(causes, 'technician', technicianChecks(asked), most, own);
}

function ranked(
  causes: CauseBits,
  kind: InformantKind,
  checks: readonly RankedCheck[],
  most: number,
): RankedCheck[] {
  return weighedOf(causes, kind, checks, most, causes.mostTried) ?? [...checks];
}

/** Null where not one check of each kind can be tried. */
function weighedOf(
  causes: CauseBits,
  kind: InformantKind,
  checks: readonly RankedCheck[],
  most: number,
  triable: number,
): RankedCheck[] | null {
  if (causes.groups === 0) return [...checks];
  const found: RankedCheck[] = [];
  const kinds = byKind(checks);
  const triableOfKind = Math.floor(triable / kinds.size);
  if (triableOfKind === 0) return null;
  for (const own of kinds.values()) {
    let tried = 0;
    const kept: RankedCheck[] = [];
    for (const { check, bound } of inOrder(causes, kind, own)) {
      const least = kept.length < most ? 0 : (kept[most - 1]?.bitsPerMinute ?? 0);
      const isWorthTrying = bound >= LEAST_CAUSE_BITS && bound / check.minutes > least;
      if (tried === triableOfKind) break;
      if (!isWorthTrying) continue;
      tried++;
      const informationBits = causes.of(check.action, kind) ?? check.informationBits;
      if (informationBits < LEAST_CAUSE_BITS) continue;
      kept.push({ ...check, informationBits, bitsPerMinute: informationBits / check.minutes });
      kept.sort((one, other) => other.bitsPerMinute - one.bitsPerMinute);
    }
    found.push(...kept.slice(0, most));
  }
  return sortLargestFirst(
    found,
    (one) => one.bitsPerMinute,
    (one, other) => compareActions(one.action, other.action),
  );
}

/** Of what is ordered by how evenly it parts what is suspected so many are tried. */
const EVENLY_TRIED = 4;

/** The most promising first: what the most is that it can tell says little of a stretch, and nothing of a disconnection. */
function inOrder(causes: CauseBits, kind: InformantKind, checks: readonly RankedCheck[]) {
  const bounded = checks.map((check) => ({ check, bound: causes.mostOf(check.action, kind) }));
  const byAction = (one: { check: RankedCheck }, other: { check: RankedCheck }) =>
    compareActions(one.check.action, other.check.action);
  const isParting = checks.some(({ action }) => ['continuity', 'isolation'].includes(action.kind));
  return isParting
    ? sortLargestFirst(bounded, ({ check }) => causes.evenness(check.action), byAction).slice(
        0,
        EVENLY_TRIED,
      )
    : sortLargestFirst(bounded, ({ check, bound }) => bound / check.minutes, byAction);
}

function byKind(checks: readonly RankedCheck[]): Map<CheckAction['kind'], RankedCheck[]> {
  const kinds = new Map<CheckAction['kind'], RankedCheck[]>();
  for (const check of checks) {
    const { kind } = check.action;
    kinds.set(kind, [...(kinds.get(kind) ?? []), check]);
  }
  return kinds;
}
