import { describe, expect, it } from '@jest/globals';
import type { WalkStep } from '#app/walks/plan-ticket-walk.js';
import type { Planned } from './plan-thread.js';
import { type EndedStepShown, shownAfter, stepShown } from './step-shown.js';

const where: WalkStep['where'] = { trunk: 'A', node: 'A3', words: 'Room 3' };

function step(words: string, seen = ['Sound', 'At fault'], minutes = 4): WalkStep {
  const ending = { probability: 0.5, then: 'go-on' as const, records: [], next: null };
  return {
    words,
    where,
    minutes,
    endings: seen.map((one) => ({ ...ending, seen: one })),
  } as unknown as WalkStep;
}

const plan = (next: WalkStep | null): Planned => ({ plan: { next } }) as unknown as Planned;

describe('stepShown', () => {
  it('shows what is planned where nothing is on the screen', () => {
    const next = step('Open the box at Room 3');
    expect(stepShown(null, plan(next))).toEqual({ step: next, newer: undefined });
    expect(stepShown(null, plan(null))).toEqual({ step: null, newer: undefined });
    expect(stepShown(null, { refused: 'failed' })).toEqual({ step: null, newer: undefined });
  });

  it('keeps the step while something is being planned', () => {
    const before = step('Open the box at Room 3');
    expect(stepShown(before, undefined)).toEqual({ step: before, newer: undefined });
  });

  it('takes over by itself what looks the same, and its endings with it', () => {
    const before = step('Open the box at Room 3');
    const next = step('Open the box at Room 3', ['Sound', 'At fault'], 9);
    expect(stepShown(before, plan(next)).step).toBe(next);
  });

  it('keeps the step, and its buttons, where something else comes', () => {
    const before = step('Open the box at Room 3');
    const others = [
      plan(step('Open the box at Room 5')),
      plan(step('Open the box at Room 3', ['At fault', 'Sound'])),
      plan(null),
      { refused: 'contradiction' } as const,
    ];
    for (const newer of others) expect(stepShown(before, newer)).toEqual({ step: before, newer });
  });
});

describe('shownAfter', () => {
  const touched = step('Open the box at Room 3');
  const next = step('Open the box at Room 5');
  const other = step('Listen in Room 9');
  const ended: EndedStepShown = { next, newestBefore: 7 };
  const drawing = { planned: undefined, newestEntry: 7, hasFailed: false };

  it('shows what comes next once the entry of the touch is kept, or what is planned by then', () => {
    const before = { step: touched, ended };
    const none = { newer: undefined, ended: undefined };
    expect(shownAfter(before, { ...drawing, newestEntry: 8 })).toEqual({ step: next, ...none });
    const planned = { ...drawing, newestEntry: 8, planned: plan(other) };
    expect(shownAfter(before, planned)).toEqual({ step: other, ...none });
  });

  it('is not ended by what comes before that: the disk of a phone may be slow', () => {
    const before = { step: touched, ended };
    // The service told something new meanwhile.
    const meanwhile = shownAfter(before, { ...drawing, planned: plan(other) });
    expect(meanwhile).toEqual({ step: touched, newer: plan(other), ended });
    expect(shownAfter(meanwhile, { ...drawing, newestEntry: 8, planned: plan(next) })).toEqual({
      step: next,
      newer: undefined,
      ended: undefined,
    });
  });

  it('has ended nothing where the entry could not be kept', () => {
    const failed = shownAfter({ step: touched, ended }, { ...drawing, hasFailed: true });
    expect(failed).toEqual({ step: touched, newer: undefined, ended: undefined });
    expect(shownAfter(failed, { ...drawing, newestEntry: 8 }).step).toBe(touched);
  });
});
