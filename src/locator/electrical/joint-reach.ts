import { ln } from '../../elementary/ln.js';
/**
 * The range of log ohms that is looked at for a log-normal joint: six standard deviations either
 * way, which leave out 2e-9 of it.
 */
export function reachOfJoint(jointOhms: { medianOhms: number; logDeviation: number }) {
  const middle = ln(jointOhms.medianOhms);
  return {
    fromLogOhms: middle - 6 * jointOhms.logDeviation,
    toLogOhms: middle + 6 * jointOhms.logDeviation,
  };
}
