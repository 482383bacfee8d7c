import { describe, expect, it } from '@jest/globals';

import { type LatLong, type KmPoint, middleOf, projectAround } from './project-places.js';

const at = (latitude: number, longitude: number): LatLong => ({ latitude, longitude });
const apart = (a: KmPoint, b: KmPoint) => Math.hypot(a.east - b.east, a.north - b.north);

/** Along the great circle, by the straight way through the earth: nothing of it is in what is tested. */
function greatCircleKm(a: LatLong, b: LatLong): number {
  const [one, other] = [a, b].map(({ latitude, longitude }) => {
    const [phi, lambda] = [(latitude * Math.PI) / 180, (longitude * Math.PI) / 180];
    return [Math.cos(phi) * Math.cos(lambda), Math.cos(phi) * Math.sin(lambda), Math.sin(phi)];
  });
  const chord = Math.hypot(...one!.map((value, i) => value - other![i]!));
  return 2 * 6371.0088 * Math.asin(chord / 2);
}

describe('places on a plane', () => {
  // Snyder, Map Projections, USGS Professional Paper 1395, numerical examples (azimuthal equidistant, sphere): R = 3, centre 40° N 100° W.
  it('lie where the published example has them', () => {
    const [point] = projectAround(at(40, -100), [at(-20, 100)]);
    expect((point!.east * 3) / 6371.0088).toBeCloseTo(-5.8311398, 6);
    expect((point!.north * 3) / 6371.0088).toBeCloseTo(5.5444634, 6);
  });

  // Rosetta Code, Haversine formula: Nashville to Los Angeles 2887.2599506071106 km for R = 6372.8 km.
  it('are as far apart through the middle as the published great circle', () => {
    const airports = [at(36.12, -86.67), at(33.94, -118.4)];
    const [one, other] = projectAround(middleOf(airports), airports);
    const published = (2887.2599506071106 * 6371.0088) / 6372.8;
    expect(apart(one!, other!)).toBeCloseTo(published, 6);
    expect(greatCircleKm(airports[0]!, airports[1]!)).toBeCloseTo(published, 6);
  });

  it.each([
    ['in a county', at(47.1, -28.4)],
    ['on the date line', at(-17, 179.99)],
    ['near a pole', at(88.5, 20)],
    ['at a pole', at(90, 0)],
  ])('are right to a thousandth within 100 km: %s', (_where, { latitude, longitude }) => {
    const places = [
      [0, 0],
      [0.4, 0.3],
      [-0.3, 0.5],
      [-0.45, -0.35],
    ].map(([north, east]) =>
      at(Math.min(90, latitude + north!), ((longitude + east! + 540) % 360) - 180),
    );
    const points = projectAround(middleOf(places), places);
    for (const [i, a] of points.entries())
      for (const [j, b] of points.entries()) {
        const km = greatCircleKm(places[i]!, places[j]!);
        expect(Math.abs(apart(a, b) - km)).toBeLessThanOrEqual(km / 1000 + 1e-9);
      }
  });

  it('have north up and east right, and one alone is the middle', () => {
    const [north, east] = projectAround(at(50, 10), [at(51, 10), at(50, 11)]);
    expect(north!.east).toBeCloseTo(0, 9);
    expect(north!.north).toBeCloseTo(111.195, 3);
    expect(east!.east).toBeGreaterThan(71);
    const alone = at(-33.2, 151);
    expect(middleOf([alone]).latitude).toBeCloseTo(-33.2, 9);
    expect(middleOf([]).latitude).toBe(0);
    expect(middleOf([at(0, 0), at(0, 180)])).toEqual(at(0, 0));
    expect(projectAround(alone, [alone])).toEqual([{ east: 0, north: 0 }]);
  });
});
