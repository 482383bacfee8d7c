import type { SeededDraws } from '../statistics/seeded-draws.js';
import { USUAL_TRAVEL_MINUTES } from './advice.js';
import type { FirmCosts, ReviewedSite, TakenMinutes } from './review-question.js';

/** Of a record that is short so many visits are as is usual, with such a spread of their logarithm. Invented starting values. */
const USUAL_VISITS = 5;
const USUAL_LOG_DEVIATION = 0.6;

/** Of the ways to sites, whose record counts beside as many visits. Invented starting value. */
const WAY_LOG_DEVIATION = 0.5;

/** A firm's visits as they may be on the whole; each is then drawn around that. */
export function timeOf(
  { visits, meanLog, logDeviation }: TakenMinutes,
  usualMinutes: number,
): (draws: SeededDraws, deviate: number) => () => number {
  const weight = USUAL_VISITS + visits;
  const ownVariance = (logDeviation ?? USUAL_LOG_DEVIATION) ** 2;
  const variance = (USUAL_VISITS * USUAL_LOG_DEVIATION ** 2 + visits * ownVariance) / weight;
  const usual = Math.log(usualMinutes) - USUAL_LOG_DEVIATION ** 2 / 2;
  const middle = (USUAL_VISITS * usual + visits * (meanLog ?? usual)) / weight;
  return (draws, deviate) => {
    const mean = middle + Math.sqrt(variance / weight) * deviate;
    return () => Math.exp(mean + Math.sqrt(variance) * draws.normal());
  };
}

/** Ways as they may be on the whole; each is then drawn around that. */
export function wayOf({
  visits,
  meanTravelMinutes,
}: TakenMinutes): (draws: SeededDraws, deviate: number) => () => number {
  const known = meanTravelMinutes === null || meanTravelMinutes <= 0 ? 0 : visits;
  const weight = USUAL_VISITS + known;
  const usual = USUAL_VISITS * Math.log(USUAL_TRAVEL_MINUTES);
  const middle = (usual + (known === 0 ? 0 : known * Math.log(meanTravelMinutes ?? 1))) / weight;
  return (draws, deviate) => {
    const mean = middle + (WAY_LOG_DEVIATION / Math.sqrt(weight)) * deviate;
    const each = mean - WAY_LOG_DEVIATION ** 2 / 2;
    return () => Math.exp(each + WAY_LOG_DEVIATION * draws.normal());
  };
}

/** Going through every room. */
export function usualUpkeepMinutes({ asBuilt }: ReviewedSite, { times }: FirmCosts): number {
  const rooms = asBuilt.trunks
    .flatMap(({ nodes }) => nodes)
    .filter(({ kind }) => kind === 'station');
  const { enterHeadEnd, openHeadEnd, isolateAndProveDead, walkTestRoom, enterRoom } = times;
  return (
    enterHeadEnd + isolateAndProveDead + openHeadEnd + rooms.length * (walkTestRoom + enterRoom)
  );
}
