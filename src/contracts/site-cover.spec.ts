import { describe, expect, it } from '@jest/globals';

import { checkContract } from './check-contract.js';
import type { ClosedTime } from './closed-time.js';
import type { ContractTerms } from './contract-kinds.js';
import { flawsOfCover, inForceOn } from './site-cover.js';

const period = (contractId: string, from: string, until: string) => ({ contractId, from, until });

describe('the cover of a site', () => {
  it('has gaps and overlaps', () => {
    const periods = [
      period('b', '2026-01-01', '2027-01-01'),
      period('a', '2024-01-01', '2025-01-01'),
      period('c', '2026-12-01', '2027-12-01'),
    ];
    expect(flawsOfCover(periods)).toEqual({
      gaps: [{ from: '2025-01-01', until: '2026-01-01', contractIds: [] }],
      overlaps: [{ from: '2026-12-01', until: '2027-01-01', contractIds: ['b', 'c'] }],
    });
    expect(flawsOfCover([])).toEqual({ gaps: [], overlaps: [] });
    expect(inForceOn(periods, '2026-12-15')?.contractId).toBe('c');
    expect(inForceOn(periods, '2026-11-30')?.contractId).toBe('b');
    expect(inForceOn(periods, '2025-01-01')).toBeUndefined();
    expect(inForceOn(periods, '2024-12-31')?.contractId).toBe('a');
  });
});

describe('a contract', () => {
  const window = { weekday: 1, from: '08:00', until: '12:00' };
  const terms: ContractTerms = {
    from: '2026-01-01',
    until: '2027-01-01',
    visitsPerYear: 4,
    visitRhythm: null,
    visitHours: { windows: [], avoidCalendarIds: [] },
    promises: [],
    coverage: {
      zone: null,
      windows: [window],
      publicHolidays: null,
      closedDays: [],
      calendarIds: [],
    },
  };
  const fields = (more: Partial<ContractTerms>) =>
    checkContract({ ...terms, ...more }).map(({ field }) => field);
  const withWindows = (...windows: ContractTerms['coverage']['windows']) =>
    fields({ coverage: { ...terms.coverage, windows } });

  it('is refused by field where it cannot be kept', () => {
    expect(fields({})).toEqual([]);
    expect(fields({ until: '2026-01-01' })).toEqual(['/until']);
    expect(fields({ until: '2046-01-01' })).toEqual(['/until']);
    expect(withWindows()).toEqual(['/coverage/windows']);
    expect(withWindows(window, { ...window, from: '11:59', until: '24:00' })).toEqual([
      '/coverage/windows/1',
    ]);
    expect(withWindows(window, { ...window, from: '12:00', until: '24:00' })).toEqual([]);
    expect(withWindows({ ...window, until: '08:00' })).toEqual(['/coverage/windows/0/until']);
    const promise = {
      troubleClass: 'one-room',
      responseMinutes: 480,
      restoreMinutes: 479,
    } as const;
    expect(fields({ promises: [promise] })).toEqual(['/promises/0/responseMinutes']);
    const fine = { ...promise, restoreMinutes: 480 };
    expect(fields({ promises: [fine, fine] })).toEqual(['/promises/1/troubleClass']);
    const rhythm = { everyMonths: 3, onDay: 31 };
    expect(fields({ visitRhythm: rhythm })).toEqual([]);
    expect(fields({ visitRhythm: rhythm, visitsPerYear: 3 })).toEqual(['/visitsPerYear']);
    const closedDays = [{ from: '2026-08-02', until: '2026-08-01', name: 'Holidays' }];
    expect(fields({ coverage: { ...terms.coverage, closedDays } })).toEqual([
      '/coverage/closedDays/0/until',
    ]);
  });

  it('is refused where no day of its time has hours', () => {
    const during = (from: string, until: string, ...closedDays: ClosedTime[]) =>
      fields({ from, until, coverage: { ...terms.coverage, closedDays } });
    // Hours on Mondays alone; 2026-01-05 is one.
    expect(during('2026-01-01', '2026-01-05')).toEqual(['/coverage/windows']);
    expect(during('2026-01-01', '2026-01-06')).toEqual([]);
    const closed = { from: '2026-01-05', until: '2026-01-06', name: 'Inventory' };
    expect(during('2026-01-01', '2026-01-06', closed)).toEqual(['/coverage/windows']);
    expect(during('2026-01-01', '2026-01-13', closed)).toEqual([]);
    const year = { from: '2026-01-01', until: '2027-01-01', name: 'Rebuilt' };
    expect(during('2026-01-01', '2027-01-01', year)).toEqual(['/coverage/windows']);
    expect(during('2026-01-01', '2027-01-01', { ...year, until: '2026-12-28' })).toEqual([]);
  });
});
