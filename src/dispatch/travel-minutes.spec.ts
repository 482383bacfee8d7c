import { describe, expect, it } from '@jest/globals';
import { greatCircleKm, travelMinutes, USUAL_TRAVEL } from './travel-minutes.js';

const EQUATOR = { latitude: 0, longitude: 0 };

describe('greatCircleKm', () => {
  // A quarter of a great circle is πR/2 = 10007.557 km for R = 6371.0088 km.
  it('knows the quarter of the earth', () => {
    expect(greatCircleKm(EQUATOR, { latitude: 90, longitude: 0 })).toBeCloseTo(10_007.557, 3);
    expect(greatCircleKm(EQUATOR, { latitude: 0, longitude: 90 })).toBeCloseTo(10_007.557, 3);
  });

  // A degree of longitude at 60° is half of one at the equator along the parallel, a little less along the great circle.
  it('goes along the great circle, the same both ways', () => {
    const a = { latitude: 60, longitude: 10 };
    const b = { latitude: 60, longitude: 11 };
    expect(greatCircleKm(a, b)).toBeCloseTo(55.597, 2);
    expect(greatCircleKm(b, a)).toBe(greatCircleKm(a, b));
  });
});

describe('travelMinutes', () => {
  it('is nothing at the same place, and whole minutes elsewhere', () => {
    expect(travelMinutes(EQUATOR, { ...EQUATOR }, USUAL_TRAVEL)).toBe(0);
    // 0.1° of the equator: 11.12 km, by 1.3 at 50 km/h 17.3 minutes, and 5.
    expect(travelMinutes(EQUATOR, { latitude: 0, longitude: 0.1 }, USUAL_TRAVEL)).toBe(23);
  });

  it('takes the road where somebody has said how long it is', () => {
    expect(travelMinutes(EQUATOR, { latitude: 0, longitude: 0.1 }, USUAL_TRAVEL, 25)).toBe(35);
  });
});
