import { describe, expect, it } from '@jest/globals';
import { SUPPLY } from '../../plan/cores.js';
import { DEFAULT_RATES } from '../../plan/rates.js';
import { spanChances } from '../sweep/span-chances.js';
import { systemOf } from '../sweep/system.js';
import { ComponentLabelsMaker } from './component-labels.js';
import { plainOf } from './label.js';
import { LabelSpace } from './label-space.js';

const { plan, effects } = systemOf();
const chances = spanChances(plan.spanModes, DEFAULT_RATES.junction, 1, 40, effects);

/** Of a component at the top of a space with so many labels, of a maker of its own as each request has. */
function shapeOf(labels: number, group = 0) {
  const space = new LabelSpace();
  for (let l = 0; l < labels; l++) space.number([plainOf(l)]);
  const maker = new ComponentLabelsMaker(effects, 0, [{ core: SUPPLY, isInRow: false }]);
  const made = maker.of(space, chances.effects, {
    asked: [],
    loops: [{ core: SUPPLY, group, excess: 5 }],
  });
  return made!.shape;
}

describe('shapes of labels', () => {
  it('are the same object for another request, and none where labels lead elsewhere', () => {
    expect(shapeOf(3)).toBe(shapeOf(3));
    expect(shapeOf(3)).not.toBe(shapeOf(4));
    expect(shapeOf(3)).not.toBe(shapeOf(3, 2));
  });

  it('are kept as long as no hundred others were asked for since', () => {
    const others = (from: number, to: number) => {
      for (let i = from; i < to; i++) shapeOf(20 + (i % 20), Math.floor(i / 20));
    };
    const kept = shapeOf(3);
    others(0, 99);
    expect(shapeOf(3)).toBe(kept);
    others(99, 199);
    others(0, 199);
    expect(shapeOf(3)).not.toBe(kept);
  });

  it('are not kept with very many labels', () => {
    expect(shapeOf(100)).not.toBe(shapeOf(100));
  });
});
