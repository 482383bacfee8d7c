import { describe, expect, it } from '@jest/globals';
import { stripRows } from './strip-rows.js';

describe('stripRows', () => {
  const suspected = [
    { at: 0, chance: 0.2 },
    { at: 4, chance: 0.7 },
  ];

  it('leaves a short trunk as it is', () => {
    expect(stripRows({ marks: 'hh-ss', suspected, here: 3 }, 5)).toEqual([
      { marks: 'hh-ss', suspected, ringed: [], here: 3, isContinued: false },
    ]);
  });

  it('cuts a long one, each thing in its own row and nowhere else', () => {
    const none = { here: undefined, suspected: [], ringed: [] };
    const ringed = [{ at: 5, chance: 0.4 }];
    expect(stripRows({ marks: 'hh-ssss', suspected, ringed, here: 6 }, 3)).toEqual([
      { ...none, marks: 'hh-', suspected: [{ at: 0, chance: 0.2 }], isContinued: false },
      {
        ...none,
        marks: 'sss',
        suspected: [{ at: 1, chance: 0.7 }],
        ringed: [{ at: 2, chance: 0.4 }],
        isContinued: true,
      },
      { ...none, marks: 's', here: 0, isContinued: true },
    ]);
  });

  it('has the head-end in the first row', () => {
    const rows = stripRows({ marks: 'hhhh', suspected: [], here: -1 }, 2);
    expect(rows.map(({ here }) => here)).toEqual([-1, undefined]);
    expect(stripRows({ marks: '', suspected: [] }, 2)).toHaveLength(1);
  });
});
