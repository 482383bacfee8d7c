import { describe, expect, it } from '@jest/globals';
import type { ReadContract } from '../../parts/wire.js';
import { draftOf, findNotNumbers, newDraft, nextDraft, poseContract } from './contract-draft.js';

const window = (weekday: number, from: string, until: string) => ({ weekday, from, until });
const contract = {
  title: 'Upkeep',
  clientId: 'client',
  siteIds: ['site'],
  from: '2026-03-01',
  until: '2028-03-01',
  kind: 'comprehensive',
  visitsPerYear: 2,
  callOutsPerYear: null,
  feeMinor: 120050,
  currency: 'EUR',
  promises: [{ troubleClass: 'one-room', responseMinutes: 90, restoreMinutes: null }],
  coverage: {
    windows: [window(1, '08:00', '12:00')],
    calendarIds: [],
    closedDays: [],
    zone: 'A/B',
  },
  pausesForParts: true,
  exclusions: null,
  noticeDays: 60,
} as unknown as ReadContract;

describe('nextDraft', () => {
  it('begins where this one ends, and is as long', () => {
    expect(nextDraft(contract)).toMatchObject({ from: '2028-03-01', last: '2030-02-28' });
    const short = { ...contract, from: '2026-01-10', until: '2026-01-20' };
    expect(nextDraft(short)).toMatchObject({ from: '2026-01-20', last: '2026-01-29' });
  });

  it('keeps hours that the form has no fields for', () => {
    const windows = [window(1, '08:00', '12:00'), window(1, '13:00', '17:00')];
    const split = { ...contract, coverage: { ...contract.coverage, windows } };
    const draft = nextDraft(split);
    expect(draft.keepsHours).toBe(true);
    expect(poseContract(draft, split).body.coverage.windows).toEqual(windows);
  });
});

describe('hours until the end of the day', () => {
  const days = [1, 2, 3, 4, 5, 6, 7];
  const windows = days.map((day) => window(day, '00:00', '24:00'));
  const always = { ...contract, coverage: { ...contract.coverage, windows } };

  it('are midnight in a field for times, which knows no 24:00', () => {
    const draft = draftOf(always);
    expect(Object.values(draft.hoursUntil)).toEqual(days.map(() => '00:00'));
    expect(poseContract(draft, always).body).toEqual(always);
  });

  it('are what midnight is posed as, on a day of which somebody typed it', () => {
    const typed = { ...draftOf(contract), hoursFrom: { 6: '18:00' }, hoursUntil: { 6: '00:00' } };
    expect(poseContract(typed).body.coverage.windows).toEqual([window(6, '18:00', '24:00')]);
  });
});

describe('poseContract', () => {
  it('is what it was made from', () => {
    expect(poseContract(draftOf(contract), contract).body).toEqual(contract);
  });

  it('tells which field a pointer is about', () => {
    const draft = {
      ...newDraft('2026-03-01'),
      response: { 'whole-trunk': '4', 'one-room': '8' },
      hoursFrom: { 3: '08:00' },
      hoursUntil: { 3: '07:00' },
    };
    const { fieldAt } = poseContract(draft);
    expect(fieldAt['response one-room']).toBe('/promises/1/responseMinutes');
    expect(fieldAt['until 3']).toBe('/coverage/windows/0/until');
    expect(fieldAt['until 4']).toBeUndefined();
  });

  it('sends no number that is none', () => {
    const draft = {
      ...nextDraft(contract),
      callOutsPerYear: 'few',
      fee: '12,5',
      restore: { 'one-room': 'x' },
    };
    const { body } = poseContract(draft);
    expect(body.feeMinor).toBe(1250);
    expect(findNotNumbers(body)).toEqual(['/callOutsPerYear', '/promises/0/restoreMinutes']);
  });
});
