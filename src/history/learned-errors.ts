import { DEFAULT_FALSE_ALARM_RATIO, MIN_FALSE_ALARM_RATIO, type Place } from '../locator/index.js';
import { DEFAULT_ERROR_RATES, type ErrorRates, type InformantKind } from '../plan/error-rates.js';
import { DEFAULT_PLAN } from '../plan/default-plan.js';
import { missedChance } from '../plan/look-errors.js';
import type { FunctionName } from '../plan/functions.js';
import type { AsBuilt } from '../sites/as-built.js';
import { siteExposure } from './exposure.js';
import { quietChance } from './quiet-chance.js';
import { type Found, placeParts } from './work-done.js';

/** What the starting values count for. Invented, as they are. */
const PRIOR_CALLS = 50;
const PRIOR_LOOKS = 40;
/** Nobody sees everything. */
const LEAST_MISSED = 0.01;

/** A closed ticket on which something was said not to work, and something or nothing was found. */
export interface ClosedCall {
  siteId: string;
  openedAt: Date;
  /** What was said not to work, each once. */
  points: readonly { trunk: string; node: string; function: FunctionName }[];
  isFound: boolean;
}

/** A look on a closed ticket, not withdrawn. */
export interface PastLook {
  siteId: string;
  ticketId: string;
  place: Place;
  part: string;
  seen: 'sound' | 'faulty';
  saidByKind: InformantKind;
  lookedAt: Date;
}

/** How often calls are about nothing and looks miss, by a firm's record, the same for all its sites. */
export interface LearnedErrors {
  calls: number;
  nothingFound: number;
  falseAlarmRatio: number;
  looks: Record<InformantKind, { missed: number; seen: number; missedChance: number }>;
}

interface SiteWork {
  siteId: string;
  asBuilt: AsBuilt;
  found: readonly Found[];
}

/**
 * Beta posteriors around the starting values (fault model, sections 4 and 7); without a record they are these to the last digit.
 * With s the share of calls in which nothing was found and q the mean prior chance that all is well that was complained of,
 * κ = s (1 - q) / ((1 - s) q).
 */
export function learnErrors(
  sites: readonly SiteWork[],
  calls: readonly ClosedCall[],
  looks: readonly PastLook[],
): LearnedErrors {
  const at = new Map(sites.map((one) => [one.siteId, one]));
  const known = calls.filter(({ siteId }) => at.has(siteId));
  const nothingFound = known.filter(({ isFound }) => !isFound).length;
  const quiet = known.map(({ siteId, points, openedAt }) => {
    const { asBuilt } = at.get(siteId) ?? { asBuilt: null };
    return asBuilt === null
      ? 1
      : quietChance(asBuilt, points, siteExposure(asBuilt, openedAt).days);
  });
  return {
    calls: known.length,
    nothingFound,
    falseAlarmRatio: falseAlarmRatio(nothingFound, quiet),
    looks: {
      office: ofLooks('office', at, looks),
      technician: ofLooks('technician', at, looks),
    },
  };
}

function falseAlarmRatio(nothingFound: number, quiet: readonly number[]): number {
  if (quiet.length === 0) return DEFAULT_FALSE_ALARM_RATIO;
  const q = quiet.reduce((sum, one) => sum + one, 0) / quiet.length;
  const oddsOfQuiet = q / (1 - q);
  const odds = DEFAULT_FALSE_ALARM_RATIO * oddsOfQuiet;
  const before = (PRIOR_CALLS * odds) / (1 + odds);
  const share = (before + nothingFound) / (PRIOR_CALLS + quiet.length);
  const ratio = share / (1 - share) / oddsOfQuiet;
  return Math.min(1, Math.max(MIN_FALSE_ALARM_RATIO, ratio));
}

/** Of looks at parts that are missed no more often than others: a cable or a bad joint says little of who looks. */
function ofLooks(
  kind: InformantKind,
  sites: ReadonlyMap<string, SiteWork>,
  looks: readonly PastLook[],
): LearnedErrors['looks'][InformantKind] {
  const usual = DEFAULT_PLAN.looks[kind].missed;
  const told = looks.filter((look) => {
    const found = sites.get(look.siteId)?.found ?? [];
    return look.saidByKind === kind && found.some((one) => isAbout(look, one, usual));
  });
  const missed = told.filter(({ seen }) => seen === 'sound').length;
  const seen = told.length - missed;
  const chance = (PRIOR_LOOKS * usual + missed) / (PRIOR_LOOKS + missed + seen);
  return { missed, seen, missedChance: Math.max(LEAST_MISSED, chance) };
}

/** What was looked at was found faulty then or later on the same ticket, and mended. */
function isAbout(look: PastLook, found: Found, usual: number): boolean {
  if (found.ticketId !== look.ticketId || found.mendedAt === null || found.mode === null)
    return false;
  if (look.lookedAt > found.mendedAt) return false;
  if (placeParts(found.place).join('\n') !== placeParts(look.place).join('\n')) return false;
  if (look.place.kind === 'span' && look.part !== found.component) return false;
  return missedChance(DEFAULT_PLAN, look.saidByKind, look.part, found.mode) === usual;
}

/** What the locator and the walk go by. */
export function errorRatesBy(learned: Pick<LearnedErrors, 'looks'> | null): ErrorRates {
  if (learned === null) return DEFAULT_ERROR_RATES;
  const { office, technician } = DEFAULT_ERROR_RATES;
  return {
    office: { ...office, missed: learned.looks.office.missedChance },
    technician: { ...technician, missed: learned.looks.technician.missedChance },
  };
}
