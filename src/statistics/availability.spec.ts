import { describe, expect, it } from '@jest/globals';
import { availability } from './availability.js';

describe('availability', () => {
  it('is the share of time between failures (usual form)', () => {
    expect(availability(300, 100)).toBe(0.75);
    expect(availability(300, 0)).toBe(1);
    expect(() => availability(0, 5)).toThrow('mtbfHours');
    expect(() => availability(5, -1)).toThrow('hoursToRestore');
  });
});
