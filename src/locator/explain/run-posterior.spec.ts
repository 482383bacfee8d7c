import { describe, expect, it } from '@jest/globals';
import { ALL_CORES, SUPPLY } from '../../plan/cores.js';
import type { SeriesPart } from './component-priors.js';
import { VIEW_COUNT } from './run-effects.js';
import { componentActs } from './series-acts.js';
import { POINT_COUNT, runPosterior } from './run-posterior.js';

const opens = (chance: number): SeriesPart => ({
  ok: 1 - chance,
  effects: [SUPPLY],
  modes: [-1],
  chances: [chance],
  faulty: chance,
  acts: componentActs(1 - chance, [SUPPLY], [chance]),
});

const full = new Float64Array(POINT_COUNT);
full[ALL_CORES * VIEW_COUNT] = 1;

describe('what is likely along a run, given its ends', () => {
  it('is nothing where all cores arrive', () => {
    const groups = [[opens(0.1)], [opens(0.2)]];
    const found = runPosterior(groups, { above: full, below: ALL_CORES * VIEW_COUNT });
    expect([...found]).toEqual([0, 0]);
  });

  it('is shared out by the priors where a core is lost', () => {
    const groups = [[opens(0.1), opens(0.05)], [opens(0.2)]];
    const below = (ALL_CORES & ~SUPPLY) * VIEW_COUNT;
    const [first, second] = runPosterior(groups, { above: full, below });
    const any = 1 - 0.9 * 0.95 * 0.8;
    expect(first).toBeCloseTo((1 - 0.9 * 0.95) / any, 12);
    expect(second).toBeCloseTo(0.2 / any, 12);
  });
});
