import type { JointQuestion } from '../electrical/joint-question.js';
import { WRONG_SHARE } from './loop-excess.js';

/** A bad joint's ohms, log-normal. Invented starting values, to be replaced by a firm's own record. */
const JOINT_OHMS = { medianOhms: 2, logDeviation: 1.5 };

/** Spans that are refined; those less likely are left in the mass not covered. */
export const MOST_CANDIDATES = 12;

/** A bad joint that the volts could see is worth refining from this chance on, as the sweep has it. */
export const IN_PLAY = 0.05;

/**
 * Standard uncertainties of what all readings of a trunk share: the source and the meter each 1 % of the source's volts,
 * the cable's ohms 5 %, the stations' current 10 %. Invented starting values.
 */
export function jointAssumptions(
  sourceVolts: number,
): Pick<JointQuestion, 'shared' | 'jointOhms' | 'wrongShare'> {
  return {
    shared: {
      sourceVolts: 0.01 * sourceVolts,
      meterVolts: 0.01 * sourceVolts,
      ohmsPerMetreShare: 0.05,
      loadShare: 0.1,
    },
    jointOhms: JOINT_OHMS,
    wrongShare: WRONG_SHARE,
  };
}
