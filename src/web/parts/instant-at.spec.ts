import { describe, expect, it } from '@jest/globals';
import { instantAt } from './instant-at.js';

describe('instantAt', () => {
  it.each([
    ['2026-03-03T14:05', 'Etc/UTC', '2026-03-03T14:05:00.000Z'],
    ['2026-03-03T14:05', 'Europe/Lisbon', '2026-03-03T14:05:00.000Z'],
    ['2026-07-03T14:05', 'Europe/Lisbon', '2026-07-03T13:05:00.000Z'],
    ['2026-07-03T00:10', 'Asia/Kolkata', '2026-07-02T18:40:00.000Z'],
    // The last half hour before the clocks go forward, and the first after it.
    ['2026-03-29T00:45', 'Europe/Lisbon', '2026-03-29T00:45:00.000Z'],
    ['2026-03-29T02:15', 'Europe/Lisbon', '2026-03-29T01:15:00.000Z'],
  ])('%s in %s', (wall, zone, instant) => {
    expect(instantAt(wall, zone)).toBe(instant);
  });
});
