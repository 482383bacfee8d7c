import { describe, expect, it } from '@jest/globals';
import { USUAL_WORK_TIMES } from '../work-times/work-times.js';
import { floorNumber, walkSpots } from './walk-spots.js';

const node = (code: string, fedFrom: string | null, floor: string | null = 'Ground') => {
  return { node: code, kind: 'station' as const, fedFrom, cableMetres: 50, floor, room: null };
};
const drawing = {
  trunks: [
    {
      trunk: 'A',
      nodes: [node('A1', null), node('A2', 'A1'), node('A3', 'A1'), node('A4', 'A3', '2')],
    },
    { trunk: 'B', nodes: [node('B1', null)] },
  ],
};

describe('where one can stand', () => {
  const { minutes, spotOf } = walkSpots(drawing, ['A', 'B'], USUAL_WORK_TIMES);
  const between = (from: string | null, to: string | null) => {
    const spot = (code: string | null) => spotOf({ trunk: code?.charAt(0) ?? '', node: code });
    return minutes[spot(from)]?.[spot(to)];
  };

  it('walks along the cable, past the tee, at a pace, with access and the lesson', () => {
    expect(between('A1', 'A1')).toBe(0);
    expect(between(null, 'A1')).toBe(1 + 3);
    expect(between('A2', 'A3')).toBe(2 + 3);
    expect(between('A2', null)).toBe(2 + 0.5);
  });

  it('charges for floors, and goes from trunk to trunk over the head-end', () => {
    expect(between('A3', 'A4')).toBe(1 + 2 * 1.5 + 3);
    expect(between('A2', 'B1')).toBe(3 + 3);
  });

  it('leaves out trunks that do not matter', () => {
    expect(walkSpots(drawing, ['B'], USUAL_WORK_TIMES).minutes).toHaveLength(2);
  });

  it('reads floors as people write them', () => {
    expect(['Ground', 'G', '2nd floor', '-1', 'Basement', 'Loft', null].map(floorNumber)).toEqual([
      0,
      0,
      2,
      -1,
      -1,
      null,
      null,
    ]);
  });
});
