import { locate } from '#app/locator/index.js';
import { drawFaults, MODEL_RATES, type Rates } from './faults.js';
import { goThrough } from './go-through.js';
import { placeChances, toRequest, truePlaces } from './places.js';
import type { Draw } from './run-row.js';
import { drawSite, type Random, type Site } from './site.js';
import { trueConditions } from './true-conditions.js';

/** Everything as the model says. */
export const drawAsModel: Draw = (random) => {
  const site = drawSite(random);
  const faults = drawFaults(site, MODEL_RATES, random);
  const evidence = goThrough(site, trueConditions(site, faults), random);
  if (!evidence) return undefined;
  const request = toRequest(site, evidence);
  return { site, evidence, request, truth: truePlaces(site, faults), faults };
};

/** Faults at other rates than the model's, which the true posterior knows. */
export function drawWithRates(ratesOf: (random: Random) => Rates): Draw {
  return (random) => {
    const rates = ratesOf(random);
    const site = drawSite(random);
    const faults = drawFaults(site, rates, random);
    const evidence = goThrough(site, trueConditions(site, faults), random);
    if (!evidence) return undefined;
    const request = toRequest(site, evidence);
    const truePosterior = () => placeChances(site, locate({ ...request, rates, explanations: 0 }));
    return { site, evidence, request, truth: truePlaces(site, faults), truePosterior };
  };
}

/** A drawing that differs from the site, which the true posterior knows. */
export function drawWithDrawing(misdraw: (site: Site, random: Random) => Site): Draw {
  return (random) => {
    const one = drawAsModel(random);
    if (!one) return undefined;
    const { site, evidence, request: asBuilt } = one;
    const drawing = misdraw(site, random);
    return {
      site,
      drawing,
      evidence,
      request: toRequest(drawing, evidence),
      truth: one.truth,
      truePosterior: () => placeChances(site, locate({ ...asBuilt, explanations: 0 })),
    };
  };
}

/** Every length wrong by up to a factor of two either way. */
export function wrongMetres(site: Site, random: Random): Site {
  const trunks = site.trunks.map(({ id, nodes }) => ({
    id,
    nodes: nodes.map((node) => {
      return { ...node, cableMetres: node.cableMetres * 2 ** (2 * random() - 1) };
    }),
  }));
  return { ...site, trunks };
}

/** On each trunk two rooms, of which one feeds the other, drawn in each other's place. */
export function wrongOrder(site: Site, random: Random): Site {
  const trunks = site.trunks.map(({ id, nodes }) => {
    const pairs = nodes.flatMap(({ kind, feeder }, n) =>
      kind === 'station' && nodes[feeder]?.kind === 'station' ? [[feeder, n] as const] : [],
    );
    const [a, b] = pairs[Math.floor(random() * pairs.length)] ?? [0, 0];
    return {
      id,
      nodes: nodes.map((node, n) => {
        return { ...node, id: nodes[n === a ? b : n === b ? a : n]!.id };
      }),
    };
  });
  return { ...site, trunks };
}
