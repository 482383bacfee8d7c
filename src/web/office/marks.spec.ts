import { describe, expect, it } from '@jest/globals';
import { countMarks, type Marks, toReport, touch } from './marks.js';

const room = (node: string) => ({ trunk: 'A', node, room: null, block: null, floor: null });

describe('touch', () => {
  it('goes from silent to heard to not said', () => {
    let marks: Marks = { 'A/A9': 'works' };
    const seen = [1, 2, 3, 4].map(() => (marks = touch(marks, 'A/A1'))['A/A1']);
    expect(seen).toEqual(['fails', 'works', undefined, 'fails']);
    expect(countMarks(marks)).toEqual({ fails: 1, works: 1 });
  });
});

describe('toReport', () => {
  const rooms = ['A1', 'A2', 'A3'].map(room);

  it('is volunteered when silent rooms alone were named', () => {
    expect(toReport(rooms, { 'A/A2': 'fails' }, 'bell')).toEqual({
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'A2', function: 'bell', outcome: 'fails' }],
    });
  });

  it('is gone through when heard rooms were named too, in the order of the rooms', () => {
    const { how, observations } = toReport(rooms, { 'A/A3': 'fails', 'A/A1': 'works' }, 'lamp');
    expect(how).toBe('gone-through');
    expect(observations.map(({ node, outcome }) => `${node} ${outcome}`)).toEqual([
      'A1 works',
      'A3 fails',
    ]);
  });
});
