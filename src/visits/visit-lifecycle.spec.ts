import { describe, expect, it } from '@jest/globals';
import { isSettled, movesFrom, VISIT_STATES } from './visit-lifecycle.js';

describe('the lifecycle of a visit', () => {
  it('leads only to states that it has, and never to the same one', () => {
    for (const state of VISIT_STATES) {
      for (const next of movesFrom(state)) {
        expect(VISIT_STATES).toContain(next);
        expect(next).not.toBe(state);
      }
    }
  });

  it('reaches every state from planned', () => {
    const reached = new Set(['planned']);
    for (const state of reached) {
      for (const next of movesFrom(state as 'planned')) reached.add(next);
    }
    expect([...reached].sort()).toEqual([...VISIT_STATES].sort());
  });

  it('is done only from under way, and settled once it is done or missed', () => {
    expect(VISIT_STATES.filter((state) => movesFrom(state).includes('done'))).toEqual([
      'under-way',
    ]);
    expect(VISIT_STATES.filter(isSettled)).toEqual(['done', 'missed']);
  });
});
