import { describe, expect, it } from '@jest/globals';
import type { ReadVisit } from '../../parts/wire.js';
import { changesOf, isMoved, typedOf } from './visit-change.js';

const VISIT = {
  ...{ on: '2026-03-04', fromTime: '09:00', untilTime: '10:00', technicianId: null },
} as ReadVisit;

describe('a visit that is changed', () => {
  it('sends what is typed otherwise than it is, and nothing else', () => {
    expect(changesOf(VISIT, {})).toEqual({});
    expect(changesOf(VISIT, typedOf(VISIT))).toEqual({});
    expect(changesOf(VISIT, { on: '2026-03-05', technicianId: 'p1', untilTime: '10:00' })).toEqual({
      on: '2026-03-05',
      technicianId: 'p1',
    });
  });

  it('takes what was emptied as nothing', () => {
    const changes = changesOf({ ...VISIT, technicianId: 'p1' }, { fromTime: '', technicianId: '' });
    expect(changes).toEqual({ fromTime: null, technicianId: null });
  });

  it('is moved by its day and hours, and not by who goes', () => {
    expect(isMoved(changesOf(VISIT, { on: '2026-03-05' }))).toBe(true);
    expect(isMoved(changesOf(VISIT, { untilTime: '11:00' }))).toBe(true);
    expect(isMoved(changesOf(VISIT, { technicianId: 'p1' }))).toBe(false);
  });
});
