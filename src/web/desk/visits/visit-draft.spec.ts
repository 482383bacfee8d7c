import { describe, expect, it } from '@jest/globals';
import { bestDayFrom, toVisit } from './visit-draft.js';

const DRAFT = {
  ...{ technicianId: '', on: '2026-03-04', fromTime: '', untilTime: '' },
  ...{ purpose: '  ', ticketIds: ['t1'], whyGo: '' },
};

describe('a visit that is booked by hand', () => {
  it('is for upkeep if it is a promised one, and a call-out is not', () => {
    expect(toVisit('s1', { ...DRAFT, kind: 'planned' }, 'Promised visit')).toEqual({
      ...{ siteId: 's1', kind: 'planned', upkeep: true, on: '2026-03-04', ticketIds: ['t1'] },
      ...{ technicianId: null, fromTime: null, untilTime: null, purpose: 'Promised visit' },
    });
    const callOut = toVisit(
      's1',
      { ...DRAFT, kind: 'call-out', purpose: ' Ladder ', fromTime: '08:30', untilTime: '10:00' },
      'Call-out',
    );
    expect(callOut).toMatchObject({ kind: 'call-out', upkeep: false, purpose: 'Ladder' });
    expect(callOut).toMatchObject({ fromTime: '08:30', untilTime: '10:00' });
  });

  it('lies on its best day, or today where that has gone by', () => {
    const promised = { ideal: '2026-03-10', from: '2026-03-01' };
    expect(bestDayFrom('2026-03-02', promised)).toBe('2026-03-10');
    expect(bestDayFrom('2026-03-11', promised)).toBe('2026-03-11');
    expect(bestDayFrom('2026-02-01', { ...promised, ideal: null })).toBe('2026-03-01');
  });
});
