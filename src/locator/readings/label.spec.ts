import { describe, expect, it } from '@jest/globals';
import { RETURN, SUPPLY } from '../../plan/cores.js';
import { DEFAULT_PLAN } from '../../plan/default-plan.js';
import { tablesOf } from '../../plan/plan-tables.js';
import { coresSeen, joinLabels, labelsAbove, NONE, plainOf, weightedOf } from './label.js';

const SPEECH = 2;
const { spanEffects: SPAN_EFFECTS } = tablesOf(DEFAULT_PLAN);
const component = { asked: [SUPPLY], loops: [{ core: SPEECH, group: 3, excess: 50 }] };

describe('labels', () => {
  it('a short takes the plain mass of whatever was seen behind it, and weighs it anew', () => {
    const short = SPAN_EFFECTS['short-speech'];
    const expected = [
      { label: [0, plainOf(3)], excesses: 0 },
      { label: [0, weightedOf(3)], excesses: 1 },
    ];
    expect(labelsAbove(short, component, [0, NONE])).toEqual(expected);
    expect(labelsAbove(short, component, [0, plainOf(7)])).toEqual(expected);
    expect(labelsAbove(short, component, [0, weightedOf(7)])).toEqual([]);
  });

  it('in a row, none and plain are one value: it goes with any state, and a short adds its weight', () => {
    const inRow = { ...component, loops: [{ core: SPEECH, group: null, excess: 50 }] };
    const short = SPAN_EFFECTS['short-speech'];
    expect(labelsAbove(short, inRow, [0, NONE])).toEqual([
      { label: [0, NONE], excesses: 0 },
      { label: [0, weightedOf(0)], excesses: 1 },
    ]);
    expect(labelsAbove(short, inRow, [0, weightedOf(0)])).toEqual([]);
    const seenIn = (isInRow: boolean, value: number) =>
      coresSeen(1, [0, value], [{ core: SPEECH, isInRow }]);
    expect(seenIn(true, NONE)).toEqual({ seen: 0, unseen: 0 });
    expect(seenIn(false, NONE)).toEqual({ seen: 0, unseen: SPEECH });
    expect(seenIn(true, weightedOf(0))).toEqual({ seen: SPEECH, unseen: 0 });
  });

  it('an open breaks the stretch and hides the short', () => {
    const label = [0, plainOf(7)];
    expect(labelsAbove(SPAN_EFFECTS.parted, component, label)).toEqual([
      { label: [1, NONE], excesses: 0 },
    ]);
    expect(labelsAbove(SPAN_EFFECTS['open-supply'], component, label)).toEqual([
      { label: [1, plainOf(7)], excesses: 0 },
    ]);
    expect(labelsAbove(SPAN_EFFECTS['open-return'], component, label)).toEqual([
      { label: [0, NONE], excesses: 0 },
    ]);
    expect(component.asked[0]).not.toBe(RETURN);
  });

  it('at a tee the nearer short decides, and only its weight counts', () => {
    const whole = (...label: number[]) => ({ label, weight: 1 });
    expect(joinLabels(0, [plainOf(2)], [plainOf(5)])).toEqual(whole(plainOf(2)));
    expect(joinLabels(0, [weightedOf(2)], [plainOf(5)])).toEqual(whole(weightedOf(2)));
    expect(joinLabels(0, [plainOf(2)], [weightedOf(5)])).toBeUndefined();
    expect(joinLabels(0, [plainOf(5)], [weightedOf(2)])).toEqual(whole(weightedOf(2)));
    expect(joinLabels(0, [weightedOf(5)], [NONE])).toEqual(whole(weightedOf(5)));
    expect(joinLabels(1, [1, NONE], [0, plainOf(1)])).toEqual(whole(1, plainOf(1)));
  });

  it('of two equally near ones each weight counts half', () => {
    const half = { label: [weightedOf(4)], weight: 0.5 };
    expect(joinLabels(0, [weightedOf(4)], [plainOf(4)])).toEqual(half);
    expect(joinLabels(0, [plainOf(4)], [weightedOf(4)])).toEqual(half);
    expect(joinLabels(0, [weightedOf(4)], [weightedOf(4)])).toBeUndefined();
    const both = joinLabels(0, [weightedOf(4), plainOf(2)], [plainOf(4), weightedOf(2)]);
    expect(both).toEqual({ label: [weightedOf(4), weightedOf(2)], weight: 0.25 });
  });
});
