import { describe, expect, it } from '@jest/globals';
import type { ReadDayPlan, ReadWorkingTime } from '../../parts/wire.js';
import { dayBeside, isDayText, laysLanes } from './day-lanes.js';
import { wishChoices } from './wish-choices.js';

const job = {
  travelMinutes: 25,
  arrives: '07:55',
  begins: '08:00',
  ends: '10:10',
} as ReadDayPlan['routes'][number]['jobs'][number];
const plan = {
  day: '2026-03-04',
  routes: [{ technicianId: 'ilvo', jobs: [job] }],
} as unknown as ReadDayPlan;
const works = (personId: string, from: string, until: string, daysOff: string[] = []) =>
  ({ personId, hours: [{ weekday: 3, from, until }], daysOff }) as unknown as ReadWorkingTime;

describe('laysLanes', () => {
  it('puts travel before the work, and whoever is at work with nothing to do below', () => {
    const laid = laysLanes(plan, [
      works('sanna', '09:00', '17:20'),
      works('ilvo', '08:00', '16:00'),
      works('jory', '05:00', '23:00', ['2026-03-04']),
    ]);
    expect(laid).toMatchObject({ from: 7, until: 18 });
    expect(laid.lanes.map(({ technicianId }) => technicianId)).toEqual(['ilvo', 'sanna']);
    expect(laid.lanes[0]?.jobs[0]).toMatchObject({
      order: 1,
      travel: { from: 450, until: 475 },
      work: { from: 480, until: 610 },
    });
  });

  it('draws an ordinary day where nobody works', () => {
    expect(laysLanes({ ...plan, routes: [] }, [])).toEqual({ from: 8, until: 17, lanes: [] });
  });
});

describe('days', () => {
  it('are of the calendar', () => {
    expect(['2026-02-28', '2026-02-30', '2026-2-3', 'today', ''].map(isDayText)).toEqual([
      true,
      false,
      false,
      false,
      false,
    ]);
    expect([dayBeside('2026-02-28', 1), dayBeside('2026-01-01', -1)]).toEqual([
      '2026-03-01',
      '2025-12-31',
    ]);
  });
});

describe('wishChoices', () => {
  const wish = {
    pinnedTo: null,
    notBy: ['ilvo'],
    minutes: 45,
    skills: ['tower'],
    reason: null,
    jobId: 'job',
    version: 1,
  };
  const choose = (key: string) =>
    wishChoices(wish, [{ personId: 'ilvo' }, { personId: 'sanna' }]).find((one) => one.key === key);

  it('keeps length and skills, and who was ruled out before', () => {
    expect(choose('not by sanna')?.fields).toEqual({
      pinnedTo: null,
      notBy: ['ilvo', 'sanna'],
      minutes: 45,
      skills: ['tower'],
    });
    expect(choose('by ilvo')?.fields).toMatchObject({ pinnedTo: 'ilvo', notBy: [] });
    expect(choose('')?.fields).toMatchObject({ pinnedTo: null, notBy: [] });
    expect(choose('not by ilvo')?.isNow).toBe(true);
  });
});
