import { describe, expect, it } from '@jest/globals';
import { countMarks, type Marks, nextOfAll, toReport, touch, touchAll } from './marks.js';

const room = (node: string) => ({
  trunk: 'A',
  node,
  room: null,
  block: null,
  floor: null,
  groups: [],
});

describe('touch', () => {
  it('goes from silent to heard to faint to not said', () => {
    let marks: Marks = { 'A/A9': 'works' };
    const seen = [1, 2, 3, 4, 5].map(() => (marks = touch(marks, 'A/A1'))['A/A1']);
    expect(seen).toEqual(['fails', 'works', 'weak', undefined, 'fails']);
    expect(countMarks(marks)).toEqual({ fails: 1, works: 1, weak: 0 });
  });
});

describe('touchAll', () => {
  const floor = ['A1', 'A2'].map(room);

  it('makes all silent first, whatever was said of some, then heard, then nothing', () => {
    let marks: Marks = { 'A/A1': 'works', 'A/A2': 'weak', 'A/A9': 'works' };
    const seen = [1, 2, 3].map(() => (marks = touchAll(marks, floor)));
    expect(seen).toEqual([
      { 'A/A9': 'works', 'A/A1': 'fails', 'A/A2': 'fails' },
      { 'A/A9': 'works', 'A/A1': 'works', 'A/A2': 'works' },
      { 'A/A9': 'works' },
    ]);
  });

  it('says before what it will do', () => {
    expect(nextOfAll({}, floor)).toBe('fails');
    expect(nextOfAll({ 'A/A1': 'fails' }, floor)).toBe('fails');
    expect(nextOfAll({ 'A/A1': 'fails', 'A/A2': 'fails' }, floor)).toBe('works');
    expect(nextOfAll({ 'A/A1': 'works', 'A/A2': 'works' }, floor)).toBeUndefined();
  });
});

describe('toReport', () => {
  const rooms = ['A1', 'A2', 'A3'].map(room);

  it('is volunteered when silent rooms alone were named', () => {
    expect(toReport(rooms, { bell: { 'A/A2': 'fails' } })).toEqual({
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A2', function: 'bell', outcome: 'fails' }],
    });
  });

  it('is gone through when heard rooms were named too, in the order of the rooms', () => {
    const { how, observations } = toReport(rooms, { lamp: { 'A/A3': 'fails', 'A/A1': 'works' } });
    expect(how).toBe('gone-through');
    expect(observations.map(({ node, outcome }) => `${node} ${outcome}`)).toEqual([
      'A1 works',
      'A3 fails',
    ]);
  });

  it('has all that was tried, one thing after the other', () => {
    const { observations } = toReport(rooms, {
      bell: { 'A/A1': 'weak' },
      announcement: { 'A/A2': 'fails', 'A/A1': 'fails' },
    });
    expect(observations.map((one) => `${one.function} ${one.node} ${one.outcome}`)).toEqual([
      'announcement A1 fails',
      'announcement A2 fails',
      'bell A1 weak',
    ]);
  });
});
