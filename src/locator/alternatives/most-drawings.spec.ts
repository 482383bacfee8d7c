import { describe, expect, it } from '@jest/globals';
import { DEFAULT_PLAN } from '../../plan/default-plan.js';
import { readRequest } from '../request/read-request.js';
import { siteModel } from '../sweep/site.js';
import { mostDrawings } from './most-drawings.js';

/** Two branches of so many rooms, with so many cores read by a meter that tells nothing apart. */
function mostOf(rooms: number, cores: readonly string[]): number {
  const nodes = Array.from({ length: 2 * rooms }, (_, n) => {
    const fedFrom = n % rooms === 0 ? null : `A${n - 1}`;
    return { id: `A${n}`, kind: 'station', cableMetres: 10 + n / 100, fedFrom };
  });
  const request = {
    trunks: [{ id: 'A', nodes }],
    exposureDays: 365,
    electrical: { sourceVolts: 24, sourceOhms: 0.2, stationAmps: 1e-6, coreOhmsPerKm: 18.1 },
    readings: cores.map((core) => {
      return { kind: 'loop-ohms', trunk: 'A', core, ohms: 1.5, uncertaintyOhms: 1.5 };
    }),
  };
  return mostDrawings(siteModel(readRequest(request, DEFAULT_PLAN)));
}

describe('how many other drawings of a trunk are weighed', () => {
  it('is more than are ever asked for on a trunk of 40, whatever was read', () => {
    expect(mostOf(20, [])).toBeGreaterThan(50);
    expect(mostOf(20, ['speech', 'select'])).toBeGreaterThan(50);
  });

  it('falls with what readings tell apart, and is none where that is too much', () => {
    const [none, one, two] = [[], ['speech'], ['speech', 'select']].map((cores) =>
      mostOf(500, cores),
    );
    expect(none).toBeGreaterThan(10);
    expect(one).toBeLessThan(none ?? 0);
    expect(two).toBeLessThan(one ?? 0);
    expect(mostOf(2000, ['speech', 'select', 'supply'])).toBe(0);
    expect(mostOf(2000, [])).toBeGreaterThan(0);
  });
});
