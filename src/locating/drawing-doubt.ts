import { surprise } from '../locator/index.js';
import { seededRandom } from '../statistics/seeded-random.js';
import type { SurpriseDto } from './checks.dto.js';
import type { Words } from '../words/index.js';
import { nameNodesOf } from '../sites/drawing.js';
import { type Evidence, lastTroubled } from './evidence.js';
import type { WhatIsKnown } from './worth-checking.js';

/** Fixed, so that the same evidence always gets the same answer. */
const SEED = 26;
const NAMED = 5;

interface DoubtedDrawing extends Pick<WhatIsKnown, 'drawing' | 'errors' | 'expected'> {
  evidence: Evidence;
  exposure: { days: number };
}

/**
 * Whether what was told goes with the drawing. Judged is the last sitting in which something did not work: what was so at
 * different times may differ without the drawing being wrong. What was told while a cable was off is left out: hundreds of
 * simulations of it take too long. Null where nothing is to be judged.
 */
export function drawingDoubt(
  { drawing, errors, expected, evidence, exposure }: DoubtedDrawing,
  words: Words,
): SurpriseDto | null {
  const { request, used: all } = lastTroubled(evidence);
  const isOfWhole = ({ disconnectedBelow }: { disconnectedBelow?: string | null }) =>
    disconnectedBelow == null;
  const used = all.filter(isOfWhole);
  const observations = request.observations?.filter(isOfWhole);
  const posed = { ...request, observations, exposureDays: exposure.days };
  const found = surprise(posed, seededRandom(SEED), errors, expected);
  if (found === null) return null;
  const nameNode = nameNodesOf(drawing, words);
  const { identitiesDropped = [], ...judged } = found;
  return {
    ...judged,
    callersAsAnybody: identitiesDropped.length,
    mostSurprising: found.mostSurprising.slice(0, NAMED).flatMap(({ observation, logChance }) => {
      const one = used[observation];
      if (one === undefined) return [];
      const { id, trunk, node, function: name, outcome, saidBy } = one;
      const told = { room: nameNode(trunk, node), function: name, outcome, saidBy };
      return {
        observationId: id,
        words: words.said(told),
        trunk,
        node,
        function: name,
        outcome,
        logChance,
      };
    }),
  };
}
