import { describe, expect, it } from '@jest/globals';
import { checkInWords } from './check-words.js';

describe('checkInWords', () => {
  const lamp = { trunk: 'A', node: 'A9', room: 'Room 9', function: 'lamp' } as const;

  it('asks about the room by its name, or by its code', () => {
    expect(checkInWords(lamp)).toBe('Look at the unit in Room 9. Is its lamp lit?');
    expect(checkInWords({ ...lamp, room: null })).toBe(
      'Look at the unit in Unit A9. Is its lamp lit?',
    );
  });

  it('uses the service’s words where there are some, as sentences', () => {
    const words = 'look whether the head-end is switched on';
    const check = { trunk: null, node: null, room: null, function: null, words };
    expect(checkInWords({ ...check, minutes: 0.5 })).toBe(
      'Look whether the head-end is switched on. Takes about a minute.',
    );
    expect(checkInWords({ ...lamp, words, minutes: 3 })).toMatch(/Takes about 3 minutes\.$/);
  });
});
