import { describe, expect, it } from '@jest/globals';
import { choosableReadings, type TakenReading } from './taken-reading.js';

let made = 0;
const taken = (more: Partial<TakenReading>): TakenReading => ({
  id: String(++made),
  reading: { kind: 'continuity', trunk: 'A', to: 'A1', cores: ['supply'], passes: true },
  takenBy: 'Ilvo Marsh',
  takenByKind: 'technician',
  takenAt: new Date(made),
  period: 0,
  withdrawalId: null,
  ...more,
});
const choose = (...all: TakenReading[]) =>
  choosableReadings(all, { period: 0, closedAt: null }, { missing: [] });

describe('the readings that a location goes by', () => {
  it('are of one person the last of the same thing', () => {
    const first = taken({});
    const last = taken({});
    expect(choose(last, first)).toEqual({
      chosen: [last],
      leftOut: [{ id: first.id, why: { kind: 'read-again' } }],
    });
  });

  it('are none that was withdrawn, which takes no earlier one’s place', () => {
    const first = taken({});
    const withdrawn = taken({ withdrawalId: 'entry' });
    expect(choose(first, withdrawn)).toEqual({
      chosen: [first],
      leftOut: [{ id: withdrawn.id, why: { kind: 'withdrawn' } }],
    });
  });

  it('say that they were withdrawn before anything else that is the matter with them', () => {
    const withdrawn = taken({ withdrawalId: 'entry', period: 2 });
    expect(choose(withdrawn).leftOut).toEqual([{ id: withdrawn.id, why: { kind: 'withdrawn' } }]);
  });
});
