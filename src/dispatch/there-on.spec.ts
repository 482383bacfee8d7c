import { describe, expect, it } from '@jest/globals';

import type { DayRules } from './pose-day.js';
import { thereOn } from './there-on.js';

const rules = { upkeepMinutes: 120, callOutMinutes: 90 } as DayRules;
const person = {
  personId: 'ilvo',
  name: 'Ilvo Marsh',
  version: 1,
  hours: [{ weekday: 3, from: '08:00', until: '16:00' }],
  daysOff: ['2026-03-11'],
  skills: ['tower'],
  startLatitude: 47,
  startLongitude: -28,
  endsAtStart: true,
};
const visit = {
  technicianId: 'ilvo',
  latitude: 47.5,
  longitude: -28.5,
  upkeep: true,
  untilTime: null,
  startedMinute: 600,
};
const left = { day: '2026-03-04', nowMinute: -1000, underWay: [visit], rules };

describe('who is there on a day', () => {
  it('is whoever works then, from the beginning where it is still to come', () => {
    expect(thereOn(person, left)).toMatchObject([
      { id: 'ilvo', fromMinute: 480, toMinute: 960, startLatitude: 47, endsAtStart: true },
    ]);
    expect(thereOn(person, { ...left, day: '2026-03-05' })).toEqual([]);
    expect(thereOn(person, { ...left, day: '2026-03-11' })).toEqual([]);
    // Nothing to do: nobody knows what time it is there.
    const idle = { ...left, nowMinute: Infinity, underWay: [] };
    expect(thereOn(person, idle)).toMatchObject([{ fromMinute: 480 }]);
  });

  it('has what is left of today, and nobody once their hours are over', () => {
    const free = { ...left, underWay: [] };
    expect(thereOn(person, { ...free, nowMinute: 660 })).toMatchObject([{ fromMinute: 660 }]);
    expect(thereOn(person, { ...free, nowMinute: 300 })).toMatchObject([{ fromMinute: 480 }]);
    expect(thereOn(person, { ...free, nowMinute: 960 })).toEqual([]);
    expect(thereOn(person, { ...free, nowMinute: 5000 })).toEqual([]);
  });

  it('goes on from the visit that somebody is on, when that is likely done', () => {
    const at = (nowMinute: number, more: object = {}) =>
      thereOn(person, { ...left, nowMinute, underWay: [{ ...visit, ...more }] })[0];
    expect(at(610)).toMatchObject({ fromMinute: 720, startLatitude: 47.5, endsAtStart: false });
    expect(at(610, { upkeep: false })).toMatchObject({ fromMinute: 690 });
    expect(at(610, { untilTime: '11:00' })).toMatchObject({ fromMinute: 660 });
    // It takes longer than is usual: from now on, then.
    expect(at(800)).toMatchObject({ fromMinute: 800 });
    expect(at(610, { technicianId: 'sanna' })).toMatchObject({ fromMinute: 610 });
    expect(at(610, { untilTime: '17:00' })).toBeUndefined();
  });
});
