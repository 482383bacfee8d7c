import { describe, expect, it } from '@jest/globals';
import {
  asOnMonday,
  carriedParts,
  daysFromTo,
  hoursTogether,
  poseRules,
  poseVan,
  poseWorking,
  roadKey,
  rulesDraft,
  runsOf,
  vanDraft,
  workingDraft,
} from './planning-draft.js';

const RULES_READ = {
  detourFactor: 1.3,
  kmPerHour: 50,
  minutesEachWay: 10,
  upkeepMinutes: 120,
  callOutMinutes: 90,
  movedMinutes: 15,
  roads: [{ siteIds: ['a', 'b'] as [string, string], km: 12.5 }],
  version: 2,
};

const TIME_READ = {
  personId: 'p',
  name: 'Ilvo Marsh',
  hours: [
    { weekday: 1, from: '08:00', until: '16:00' },
    { weekday: 2, from: '08:00', until: '16:00' },
    { weekday: 4, from: '08:00', until: '12:00' },
  ],
  daysOff: ['2026-03-03', '2026-03-02'],
  skills: ['tower', 'head-end'],
  startLatitude: 47.1,
  startLongitude: -28.4,
  endsAtStart: true,
  version: 1,
};

const WHY = { number: 'no', together: 'both' };

describe('rules of plans as they are typed', () => {
  it('are sent as they were read; a road is one both ways', () => {
    const { version: _version, ...sent } = RULES_READ;
    const draft = rulesDraft(RULES_READ);
    expect(poseRules(draft, 'no')).toEqual({ body: sent, errors: [] });
    expect(roadKey('b', 'a')).toBe(Object.keys(draft.roads)[0]);
    expect(poseRules({ ...draft, roads: { 'a b': undefined } }, 'no').body.roads).toEqual([]);
  });

  it('name each that is no number', () => {
    const draft = {
      ...rulesDraft(RULES_READ),
      kmPerHour: 'fast',
      roads: { 'a b': '', 'a c': '3,5' },
    };
    const { body, errors } = poseRules(draft, 'no');
    expect(errors.map(({ field }) => field)).toEqual(['/kmPerHour', '/roads/0/km']);
    expect(body.roads[1]).toEqual({ siteIds: ['a', 'c'], km: 3.5 });
  });
});

describe('a working time as it is typed', () => {
  it('is sent as it was read', () => {
    const { personId: _id, name: _name, version: _version, ...sent } = TIME_READ;
    expect(poseWorking(workingDraft(TIME_READ), WHY)).toEqual({
      body: { ...sent, daysOff: ['2026-03-02', '2026-03-03'] },
      errors: [],
    });
  });

  it('says nothing of a place that nobody typed, and names what is no number', () => {
    const draft = { ...workingDraft(TIME_READ), startLatitude: '', startLongitude: 'west' };
    const { body, errors } = poseWorking({ ...draft, skills: 'tower,, tower ' }, WHY);
    expect(body).toMatchObject({ startLatitude: null, skills: ['tower'] });
    expect(errors).toEqual([
      { field: '/startLongitude', reason: 'no' },
      { field: '/startLatitude', reason: 'both' },
    ]);
    const monday = asOnMonday(workingDraft(TIME_READ));
    expect(monday.until).toEqual({ 1: '16:00', 2: '16:00', 3: '16:00', 4: '16:00', 5: '16:00' });
  });

  it('has days and hours together that follow one another', () => {
    expect(runsOf(['2026-02-28', '2026-03-01', '2026-03-03'])).toEqual([
      { first: '2026-02-28', last: '2026-03-01' },
      { first: '2026-03-03', last: '2026-03-03' },
    ]);
    expect(daysFromTo('2026-02-27', '2026-03-01')).toHaveLength(3);
    expect(daysFromTo('2026-03-01', '2026-02-27')).toEqual([]);
    expect(daysFromTo('2026-01-01', '2099-01-01')).toHaveLength(366);
    expect(hoursTogether(TIME_READ.hours).map(({ first, last }) => [first, last])).toEqual([
      [1, 2],
      [4, 4],
    ]);
  });
});

describe('a van as it is typed', () => {
  const read = {
    personId: 'p',
    name: 'Ilvo Marsh',
    parts: [
      { name: 'connectors', quantity: 40 },
      { name: '30 m of trunk cable', quantity: 1 },
    ],
    version: 2,
  };

  it('is sent as it was read, where nothing was typed', () => {
    expect(poseVan(vanDraft(read), 'whole')).toEqual({ body: { parts: read.parts }, errors: [] });
  });

  it('sends no part that was taken off, and names what is no whole number', () => {
    const { parts } = vanDraft(read);
    const draft = {
      parts: { ...parts, connectors: undefined, 'fuse for an output': '1.5', ferrules: 'some' },
    };
    expect(carriedParts(draft).map(({ name }) => name)).toEqual([
      '30 m of trunk cable',
      'fuse for an output',
      'ferrules',
    ]);
    expect(poseVan(draft, 'whole').errors).toEqual([
      { field: '/parts/1/quantity', reason: 'whole' },
      { field: '/parts/2/quantity', reason: 'whole' },
    ]);
  });
});
