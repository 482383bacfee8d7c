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
}

export type ErrorRates = Readonly<Record<InformantKind, InformantErrors>>;

/** Starting values (fault model, section 4): invented, to be replaced by a firm's own record. */
export const DEFAULT_ERROR_RATES: ErrorRates = {
  office: {
    good: [0.94, 0.03, 0.03],
    weak: [0.35, 0.45, 0.2],
    dead: [0.015, 0.005, 0.98],
    confused: 0.02,
  },
  technician: {
    good: [0.985, 0.01, 0.005],
    weak: [0.1, 0.85, 0.05],
    dead: [0.003, 0.002, 0.995],
    confused: 0,
  },
};

/** Likelihood of each thing that a confused informant told. */
export const CONFUSED_LIKELIHOOD = 1 / 3;
