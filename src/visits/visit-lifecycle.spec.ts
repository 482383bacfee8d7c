import { describe, expect, it } from '@jest/globals';
import { isSettled, visitMovesFrom, VISIT_STATES } from './visit-lifecycle.js';

describe('the lifecycle of a visit', () => {
  it('leads only to states that it has, and never to the same one', () => {
    for (const state of VISIT_STATES) {
      for (const next of visitMovesFrom(state)) {
        expect(VISIT_STATES).toContain(next);
        expect(next).not.toBe(state);
      }
    }
  });

  it('reaches every state from planned', () => {
    const reached = new Set(['planned']);
    for (const state of reached) {
      for (const next of visitMovesFrom(state as 'planned')) reached.add(next);
    }
    expect([...reached].sort()).toEqual([...VISIT_STATES].sort());
  });

  it('is done only from under way, and settled once it is done or missed', () => {
    expect(VISIT_STATES.filter((state) => visitMovesFrom(state).includes('done'))).toEqual([
      'under-way',
    ]);
    expect(VISIT_STATES.filter(isSettled)).toEqual(['done', 'missed']);
  });
});
