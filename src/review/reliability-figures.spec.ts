import { describe, expect, it } from '@jest/globals';
import { NOTHING_DRAWN } from '../sites/as-built.js';
import { reliabilityFigures } from './reliability-figures.js';

const HOUR = 3_600_000;
const SINCE = '2026-01-01';
const at = (hours: number) => new Date(Date.parse(SINCE) + hours * HOUR).toISOString();
const site = (siteId: string) => {
  return { siteId, name: siteId, zone: 'Etc/UTC', asBuilt: NOTHING_DRAWN };
};

describe('how often something fails', () => {
  // NIST/SEMATECH e-Handbook 8.4.5.1 and 8.4.5.2 (read, recomputed in R 4.2.2).
  it('is the handbook’s for one site: 2 failures in 800 h; growth 0.516494 over 1500 h', () => {
    const two = [100, 500].map((hours) => ({ siteId: 'a', at: at(hours) }));
    const given = { sites: [site('a')], recordedSince: SINCE, prior: null };
    const limits = reliabilityFigures({ ...given, failures: two }, Date.parse(at(800)), null);
    expect(limits).toMatchObject({ failures: 2, siteHours: 800, mtbfHours: 400 });
    expect(limits?.lowHours).toBeCloseTo(127.069, 3);
    expect(limits?.highHours).toBeCloseTo(2251.229, 3);
    const ten = [5, 40, 43, 175, 389, 712, 747, 795, 1299, 1478];
    const failures = ten.map((hours) => ({ siteId: 'a', at: at(hours) }));
    const grown = reliabilityFigures({ ...given, failures }, Date.parse(at(1500)), 8);
    expect(grown?.growth?.growth).toBeCloseTo(0.516494, 6);
    expect(grown?.growth?.mtbfHours).toBeCloseTo(310.234, 3);
    expect(grown?.trend).toMatchObject({ failures: 10, warning: null });
    expect(grown?.availability).toBeCloseTo(
      (grown?.posterior.medianHours ?? 0) / ((grown?.posterior.medianHours ?? 0) + 8),
      12,
    );
  });

  it('counts the hours of all sites, and each by itself', () => {
    const failures = [10, 20, 90].map((hours) => ({ siteId: 'b', at: at(hours) }));
    const sites = [site('a'), site('b')];
    const given = { sites, failures, recordedSince: SINCE, prior: null };
    const told = reliabilityFigures(given, Date.parse(at(50)), null);
    expect(told).toMatchObject({ failures: 2, siteHours: 100, mtbfHours: 50 });
    expect(told?.sites).toMatchObject([
      { siteId: 'a', failures: 0, mtbfHours: null, highHours: null },
      { siteId: 'b', failures: 2, mtbfHours: 25 },
    ]);
  });

  it('tells no growth where all failures are at the very end, and nothing without a record', () => {
    const failures = [50, 50].map((hours) => ({ siteId: 'a', at: at(hours) }));
    const given = { sites: [site('a')], failures, recordedSince: SINCE, prior: null };
    expect(reliabilityFigures(given, Date.parse(at(50)), null)?.growth).toBeNull();
    expect(reliabilityFigures(given, Date.parse(SINCE), null)).toBeNull();
  });
});
