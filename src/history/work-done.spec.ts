import { describe, expect, it } from '@jest/globals';
import { componentKey, componentsOf, foundBy, type WorkEntry } from './work-done.js';

const span = { kind: 'span', trunk: 'A', from: '1', to: '2' } as const;
const station = { kind: 'station', trunk: 'A', node: '2' } as const;
const at = (day: number) => new Date(Date.UTC(2026, 0, day));
const finding = (day: number, details: WorkEntry['details'], ticketId = 'T'): WorkEntry => ({
  ticketId,
  kind: 'finding',
  happenedAt: at(day),
  details,
});
const mending = (day: number, how: 'lasting' | 'temporary', ticketId = 'T'): WorkEntry => ({
  ticketId,
  kind: 'mending',
  happenedAt: at(day),
  details: { mending: how },
});

describe('what was found', () => {
  it('is mended by the next mending of its ticket', () => {
    const found = foundBy([
      finding(1, { place: span, component: 'junction-in', mode: 'parted' }),
      finding(1, { place: station }, 'U'),
      mending(2, 'lasting'),
      finding(3, { place: station }),
    ]);
    expect(found).toMatchObject([
      { ticketId: 'T', component: 'junction-in', mending: 'lasting', mendedAt: at(2) },
      { ticketId: 'T', place: station, mending: null, mendedAt: null },
      { ticketId: 'U', place: station, mending: null },
    ]);
  });

  it('counts a place once between two mendings, by the last word about it', () => {
    const found = foundBy([
      finding(1, { place: span }),
      finding(2, { place: span, component: 'cable' }),
      finding(2, { place: null }),
      mending(3, 'temporary'),
      finding(4, { place: span }),
      mending(5, 'lasting'),
    ]);
    expect(found.map(({ component, mending: how }) => [component, how])).toEqual([
      ['cable', 'temporary'],
      [null, 'lasting'],
    ]);
  });
});

describe('components of a place', () => {
  it('are all of it, or the one that is named', () => {
    const keys = (...args: Parameters<typeof componentsOf>) =>
      componentsOf(...args).map(componentKey);
    expect(keys(span)).toEqual([
      '["junction-out","A","2"]',
      '["cable","A","2"]',
      '["junction-in","A","2"]',
    ]);
    expect(keys(span, 'cable')).toEqual(['["cable","A","2"]']);
    expect(keys(station)).toEqual(['["station","A","2"]']);
    expect(keys({ kind: 'port', trunk: 'A' })).toEqual(['["port","A",""]']);
    expect(keys({ kind: 'head-end' })).toEqual(['["head-end","",""]']);
  });
});
