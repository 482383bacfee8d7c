import { componentsOfSite } from '../history/component-classes.js';
import {
  learnedAtSite,
  type LearnedAtSites,
  MODEL_RATES,
  ratesAtSite,
} from '../history/learned-rates.js';
import { componentKey } from '../history/work-done.js';
import type { Component, Place } from '../locator/index.js';
import { drawingOf, nameNodesOf } from '../sites/drawing.js';
import type { Words } from '../words/index.js';
import type { AdvisedJointDto } from './review.dto.js';
import type { FirmCosts, ReviewedSite } from './review-question.js';

const MOST_ADVISED = 10;

/** There and back, where nobody wrote it down (common practice, no source). */
export const USUAL_TRAVEL_MINUTES = 60;

/** Below so much gained a year, in failures, a joint is like all others. */
const LEAST_GAIN = 1e-3;

/**
 * Joints and cables that fail more often than others of their kind, by what renewing them would save: the chance of a
 * failure in the next year at their own rate, less that at the rate of their kind, times what a call-out costs. At most
 * ten, what pays back soonest first; without prices, what gains most.
 */
export function advisedJoints(
  sites: readonly ReviewedSite[],
  rates: readonly LearnedAtSites[],
  costs: FirmCosts,
  words: Words,
): AdvisedJointDto[] {
  const all = sites.flatMap((site) => advisedAt(site, rates, costs, words));
  const worst = (one: AdvisedJointDto) => one.paysBackYears ?? 0;
  return all
    .sort((one, other) => worst(one) - worst(other) || other.gain - one.gain)
    .slice(0, MOST_ADVISED);
}

function advisedAt(
  { siteId, asBuilt }: ReviewedSite,
  rates: readonly LearnedAtSites[],
  costs: FirmCosts,
  words: Words,
): AdvisedJointDto[] {
  const ratesOf = ratesAtSite(learnedAtSite(rates, siteId), asBuilt);
  const classRates = new Map(
    rates.map(({ className, mode, classRate }) => [JSON.stringify([className, mode]), classRate]),
  );
  const nameNode = nameNodesOf(asBuilt, words);
  return componentsOfSite(asBuilt).flatMap(({ component, className, yearlyExposure }) => {
    const { component: name } = component;
    if (name !== 'junction-in' && name !== 'junction-out' && name !== 'cable') return [];
    const own = sum(Object.values(ratesOf(component))) * yearlyExposure;
    const renewed =
      yearlyExposure *
      sum(
        Object.entries(MODEL_RATES(component)).map(
          ([mode, rate]) => classRates.get(JSON.stringify([className, mode])) ?? rate,
        ),
      );
    const gain = own - renewed;
    if (gain < LEAST_GAIN) return [];
    const place = placeOf(component, asBuilt);
    const failureMinor = callOutMinor(costs);
    const renewalMinor = renewMinor(name, costs);
    return {
      siteId,
      place,
      component: name,
      key: componentKey(component),
      words: `${words.component(name, place, nameNode)}, ${words.place(place, nameNode)}`,
      chance: 1 - Math.exp(-own),
      chanceRenewed: 1 - Math.exp(-renewed),
      gain,
      failureMinor,
      renewalMinor,
      paysBackYears:
        failureMinor === null || renewalMinor === null || failureMinor === 0
          ? null
          : renewalMinor / (gain * failureMinor),
    };
  });
}

/** What a call-out costs on average; null without prices. */
export function callOutMinor(costs: FirmCosts): number | null {
  const { prices, callOuts, usualCallOutMinutes } = costs;
  if (prices === null) return null;
  const minutes = callOuts.meanMinutes ?? usualCallOutMinutes;
  const travel = callOuts.meanTravelMinutes ?? USUAL_TRAVEL_MINUTES;
  return Math.round((minutes * prices.hourMinor + travel * prices.travelHourMinor) / 60);
}

/** On a visit that is made anyway. */
function renewMinor(
  name: 'junction-in' | 'junction-out' | 'cable',
  costs: FirmCosts,
): number | null {
  const { prices, times } = costs;
  if (prices === null) return null;
  const mend = name === 'cable' ? times.mendCable : times.openTerminals + times.mendTerminals;
  return Math.round(
    ((times.setUpLadder + times.isolateAndProveDead + mend) * prices.hourMinor) / 60,
  );
}

function placeOf(component: Component, asBuilt: ReviewedSite['asBuilt']): Place {
  if (!('node' in component)) throw new Error(`A ${component.component} is at no span`);
  const { trunk, node } = component;
  const from = drawingOf(asBuilt).nodeAt(trunk, node)?.fedFrom ?? null;
  return { kind: 'span', trunk, from, to: node };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
