import { describe, expect, it } from '@jest/globals';
import { stateByLog, type StatingEntry } from './state-by-log.js';

const move = (to: string): StatingEntry => ({ kind: 'move', details: { to } });
const bridged: StatingEntry = {
  kind: 'mending',
  details: { mending: 'temporary', followUpDueOn: '2026-03-09' },
};
const mended: StatingEntry = { kind: 'mending', details: { mending: 'lasting' } };

describe('the state that a log leads to', () => {
  it('is reported where nothing was done yet', () => {
    expect(stateByLog([])).toEqual({ state: 'reported', followUpDueOn: null });
  });

  it('is what was said last, by a move or a mending', () => {
    expect(stateByLog([move('to-visit'), move('at-work')]).state).toBe('at-work');
    expect(stateByLog([move('at-work'), mended]).state).toBe('mended');
    expect(stateByLog([mended, move('at-work')]).state).toBe('at-work');
  });

  it('has the follow-up visit of the mending that was last, also while somebody is at work on it', () => {
    const due = '2026-03-09';
    expect(stateByLog([bridged])).toEqual({ state: 'bridged', followUpDueOn: due });
    expect(stateByLog([bridged, move('at-work')])).toEqual({
      state: 'at-work',
      followUpDueOn: due,
    });
    expect(stateByLog([bridged, mended])).toEqual({ state: 'mended', followUpDueOn: null });
  });
});
