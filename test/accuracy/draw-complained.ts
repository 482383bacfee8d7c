import { DEFAULT_FALSE_ALARM_RATIO } from '#app/locator/index.js';
import { drawFaults, MODEL_RATES } from './faults.js';
import { type ConditionAt, goThrough } from './go-through.js';
import { positionOf, toRequest, truePlaces } from './places.js';
import type { Draw } from './run-row.js';
import { drawSite, type Random, type Site } from './site.js';
import type { Told } from './tell.js';
import { trueConditions } from './true-conditions.js';

// Calls arise from trouble, rarely from nothing: the locator is told that the evidence began by a complaint.

/** Whether there is a call at all: always where something that was told not to work does not; seldom where all of it does. */
function isCalled(site: Site, told: readonly Told[], condition: ConditionAt, random: Random) {
  const isTrue = told.some((one) => {
    const trunk = site.trunks.findIndex(({ id }) => id === one.trunk);
    return (
      one.outcome !== 'works' && condition(trunk, positionOf(site, one), one.function) !== 'good'
    );
  });
  return isTrue || random() < DEFAULT_FALSE_ALARM_RATIO;
}

/** Everything as the model says, calls included. */
export const drawComplained: Draw = (random) => {
  const site = drawSite(random);
  const faults = drawFaults(site, MODEL_RATES, random);
  const condition = trueConditions(site, faults);
  const evidence = goThrough(site, condition, random);
  if (!evidence || !isCalled(site, evidence, condition, random)) return undefined;
  const request = { ...toRequest(site, evidence), begunBy: 'complaint' as const };
  return { site, evidence, request, truth: truePlaces(site, faults), faults };
};
