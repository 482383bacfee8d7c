import { DEFAULT_FALSE_ALARM_RATIO, MIN_FALSE_ALARM_RATIO } from '../locator/index.js';
import { DEFAULT_ERROR_RATES, type ErrorRates, type InformantKind } from '../plan/error-rates.js';
import { DEFAULT_PLAN } from '../plan/default-plan.js';
import type { LookCounts } from './ticket-experience.js';

/** What the starting values count for. Invented, as they are. */
const PRIOR_CALLS = 50;
const PRIOR_LOOKS = 40;
/** Nobody sees everything. */
const LEAST_MISSED = 0.01;

/** A call as its closed ticket has it: see `TicketExperience`. */
export interface PastCall {
  isFound: boolean;
  quiet: number;
}

/** How often calls are about nothing and looks miss, by a firm's record, the same for all its sites. */
export interface LearnedErrors {
  calls: number;
  nothingFound: number;
  falseAlarmRatio: number;
  looks: Record<InformantKind, { missed: number; seen: number; missedChance: number }>;
}

/**
 * Beta posteriors around the starting values (fault model, sections 4 and 7); without a record they are these to the last digit.
 * With s the share of calls in which nothing was found and q the mean prior chance that all is well that was complained of,
 * κ = s (1 - q) / ((1 - s) q).
 */
export function learnErrors(calls: readonly PastCall[], looks: LookCounts): LearnedErrors {
  const nothingFound = calls.filter(({ isFound }) => !isFound).length;
  const quiet = calls.map((call) => call.quiet);
  return {
    calls: calls.length,
    nothingFound,
    falseAlarmRatio: falseAlarmRatio(nothingFound, quiet),
    looks: {
      office: missedBy('office', looks.office),
      technician: missedBy('technician', looks.technician),
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

function missedBy(
  kind: InformantKind,
  { missed, seen }: LookCounts[InformantKind],
): LearnedErrors['looks'][InformantKind] {
  const usual = DEFAULT_PLAN.looks[kind].missed;
  const chance = (PRIOR_LOOKS * usual + missed) / (PRIOR_LOOKS + missed + seen);
  return { missed, seen, missedChance: Math.max(LEAST_MISSED, chance) };
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
