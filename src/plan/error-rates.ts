import { DEFAULT_PLAN } from './default-plan.js';

/** What an observation says. */
export const OUTCOMES = ['works', 'weak', 'fails'] as const;
export type Outcome = (typeof OUTCOMES)[number];

/** What is true of a function at a station (fault model, section 3). */
export const CONDITIONS = ['good', 'weak', 'dead'] as const;
export type Condition = (typeof CONDITIONS)[number];

export const INFORMANT_KINDS = ['office', 'technician'] as const;
export type InformantKind = (typeof INFORMANT_KINDS)[number];

/** P(outcome | condition), columns as OUTCOMES, and the chance that an informant with an identity is confused. */
export interface InformantErrors {
  readonly good: readonly [number, number, number];
  readonly weak: readonly [number, number, number];
  readonly dead: readonly [number, number, number];
  readonly confused: number;
  /** That one who looks at a part does not see what is wrong with it; left out: the starting value. */
  readonly missed?: number;
}

export type ErrorRates = Readonly<Record<InformantKind, InformantErrors>>;

export const DEFAULT_ERROR_RATES: ErrorRates = DEFAULT_PLAN.errors;

/** Likelihood of each thing that a confused informant told. */
export const CONFUSED_LIKELIHOOD = 1 / 3;
