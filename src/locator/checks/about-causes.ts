import { sortLargestFirst } from '../posterior/order.js';
import { type CheckAction, compareActions, type RankedCheck } from './check-action.js';
import { minutesOf, officeMinutes } from './check-minutes.js';
import { maySettingBeLikely } from './likely-setting.js';
import { planOf } from '../request/plan-of.js';
import { type ChecksRequest, mostTried, triedOver, type Tries } from './checks-request.js';
import { MOST_OFFICE_CHECKS, officeChecks, sweptForOffice } from './office-checks.js';
import { technicianChecks } from './technician-checks.js';
import { CauseBits } from './cause-bits.js';

/** A check that tells less about the causes, in bits, is not offered. */
export const LEAST_CAUSE_BITS = 0.01;

/** What an office is asked: officeChecks, as far as they tell something of the causes, and a look at what is likely broken. */
export function officeChecksAboutCauses(asked: ChecksRequest): RankedCheck[] {
  const swept = sweptForOffice(asked);
  const checks = officeChecks(asked, swept);
  if (mostTried(asked) === 0 && (!swept || !maySettingBeLikely(asked.request, swept)))
    return checks;
  const causes = new CauseBits(asked, 'office');
  const found = ranked(causes, checks, MOST_OFFICE_CHECKS);
  const { settings = [] } = asked.lookedAt ?? {};
  const setting = causes.likelySetting();
  const isAsked = found.some(
    ({ action }) => action.kind === 'head-end' && action.setting === setting,
  );
  if (setting === null || isAsked || settings.includes(setting)) return found;
  const action = { kind: 'head-end', setting } as const;
  const informationBits = causes.of(action) ?? 0;
  const minutes = minutesOf(action, asked.minutes ?? officeMinutes(planOf(asked.request).plan));
  const look = { action, informationBits, minutes, bitsPerMinute: informationBits / minutes };
  return [look, ...found].slice(0, MOST_OFFICE_CHECKS);
}

/**
 * Of technicianChecks the `most` of each kind of action that tell most about the causes for each minute, with that:
 * `informationBits` is the sum over the troubles, each group of them once, of I(outcome; cause). What a check tells of its
 * own condition is the most that it tells of any cause, so that few must have their outcomes tried; 24 at most, fewer at a large site. Nothing
 * is left where the causes are certain. Where nothing was missed there are no causes, and the checks stay as they are.
 */
export function technicianChecksAboutCauses(asked: ChecksRequest, most: number): RankedCheck[] {
  const checks = technicianChecks(asked);
  if (mostTried(asked) === 0) return checks;
  return ranked(new CauseBits(asked, 'technician'), checks, most);
}

/** The same with other bounds, those of the site's states among them; null where nothing could be tried within them. */
export function technicianChecksWeighed(
  asked: ChecksRequest,
  most: number,
  tries: Tries,
): RankedCheck[] | null {
  const causes = new CauseBits(asked, 'technician');
  const own = triedOver(causes.sweptNodes, tries);
  if (own === 0) return null;
  return weighedOf(causes, technicianChecks(asked), most, own);
}

function ranked(causes: CauseBits, checks: readonly RankedCheck[], most: number): RankedCheck[] {
  return weighedOf(causes, checks, most, causes.mostTried) ?? [...checks];
}

/** Null where not one check of each kind can be tried. */
function weighedOf(
  causes: CauseBits,
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
    for (const { check, bound } of inOrder(causes, own)) {
      const least = kept.length < most ? 0 : (kept[most - 1]?.bitsPerMinute ?? 0);
      const isWorthTrying = bound >= LEAST_CAUSE_BITS && bound / check.minutes > least;
      if (!isWorthTrying || tried === triableOfKind) break;
      tried++;
      const informationBits = causes.of(check.action) ?? check.informationBits;
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

/** Of a kind of which the most that it can tell is not known beforehand: so many are tried. */
const UNBOUNDED_TRIED = 4;

/** The most promising first. */
function inOrder(causes: CauseBits, checks: readonly RankedCheck[]) {
  const bounded = checks.flatMap((check) => {
    const own = causes.ownBits(check.action);
    return own === null ? [] : [{ check, bound: Math.min(causes.most, causes.groups * own) }];
  });
  if (bounded.length < checks.length)
    return sortLargestFirst(
      checks,
      ({ action }) => causes.evenness(action),
      (one, other) => compareActions(one.action, other.action),
    )
      .slice(0, UNBOUNDED_TRIED)
      .map((check) => ({ check, bound: causes.most }));
  return sortLargestFirst(
    bounded,
    ({ check, bound }) => bound / check.minutes,
    (one, other) => compareActions(one.check.action, other.check.action),
  );
}

function byKind(checks: readonly RankedCheck[]): Map<CheckAction['kind'], RankedCheck[]> {
  const kinds = new Map<CheckAction['kind'], RankedCheck[]>();
  for (const check of checks) {
    const { kind } = check.action;
    kinds.set(kind, [...(kinds.get(kind) ?? []), check]);
  }
  return kinds;
}
