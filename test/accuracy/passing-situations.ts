import { intermittent } from '#app/locator/index.js';
import { worldReader } from '#app/locator/worlds/index.js';
import { seededRandom } from '../electrical/seeded-random.js';
import type { Random } from './site.js';
import { drawRows, EXPOSURE_DAYS, type Situation } from './situation-table.js';
import {
  bestCauses,
  faultsOf,
  placeName,
  type SituationOutcome,
  sorted,
  weighted,
} from './situations.js';
import { drawOutcome } from './tell.js';

// What is there in one sitting and not in the next, as families: one fault that comes and goes, by the model's rates among
// those that make the situation while they are there. Right is the place that comes and goes.

export type PassingOutcome = Omit<SituationOutcome, 'habits'>;

const ROOMS_HEARD = ['A9', 'A8', 'A10'];

/** Sittings in which it is there: silent, heard, silent again. */
const PRESENT = [true, false, true];

type Passing = Pick<Situation, 'name' | 'isMadeBy'> & { asked: readonly string[] };

export const PASSING_SITUATIONS: readonly Passing[] = [
  {
    name: 'one room silent, then heard, then silent again',
    isMadeBy: (well) => !well('A9') && well('A8') && well('A10'),
    asked: ROOMS_HEARD,
  },
  {
    name: 'silent from one room on, then heard, then silent again',
    isMadeBy: (well) => well('A11') && !well('A12') && !well('A20'),
    asked: ['A12', 'A13', 'A16', 'A20', 'A11'],
  },
  {
    name: 'all silent, all heard after a reset, all silent again',
    isMadeBy: (well) => !well('A1') && !well('A20') && !well('B1'),
    asked: ['A1', 'A12', 'A20', 'B2'],
  },
];

export function runPassing(of: Passing, seed: number, cases: number): PassingOutcome[] {
  const random = seededRandom(seed);
  return Array.from({ length: cases }, () => runCase(of, random));
}

function runCase(of: Passing, random: Random): PassingOutcome {
  const site = drawRows(random);
  const trunks = site.trunks.map(({ id, nodes }) => ({
    id,
    nodes: nodes.map(({ id: node, kind, cableMetres }) => ({ id: node, kind, cableMetres })),
  }));
  const read = worldReader({ trunks, exposureDays: EXPOSURE_DAYS });
  const made = faultsOf(site).filter(({ fault }) => {
    if (fault.mode === 'resistive' || fault.mode.startsWith('short-')) return false;
    const { condition } = read({ faults: [fault] });
    return of.isMadeBy(
      (node, name = 'announcement') => condition(node.charAt(0), node, name) === 'good',
      fault,
    );
  });
  const { fault } = weighted(made, random);
  const observations = PRESENT.flatMap((isThere, sitting) => {
    const { condition } = read({ faults: isThere ? [fault] : [] });
    return of.asked.map((node) => {
      const trunk = node.charAt(0);
      const is = condition(trunk, node, 'announcement');
      const outcome = drawOutcome({ kind: 'office' }, is, random);
      return { sitting, trunk, node, function: 'announcement' as const, outcome };
    });
  });
  if (observations[0]?.outcome === 'works') return runCase(of, random);
  const { nothing, spans, parts } = intermittent({
    trunks,
    exposureDays: EXPOSURE_DAYS,
    observations,
  });
  const stated = sorted(
    new Map([
      ['nothing', nothing],
      ...[...spans, ...parts].map(
        ({ place, probability }) => [placeName(place), probability] as const,
      ),
    ]),
  );
  const truth = placeName(fault.place);
  const [named = '', chance = 0] = [...stated][0] ?? [];
  const [bestNamed = ''] = bestCauses(made).keys();
  return {
    stated: chance,
    isRight: named === truth,
    isBestRight: bestNamed === truth,
    bits: -Math.log2(Math.max(stated.get(truth) ?? 0, 2 ** -20)),
  };
}
