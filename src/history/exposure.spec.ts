import { describe, expect, it } from '@jest/globals';
import { blankNode } from '../sites/as-built-fields.js';
import { type AsBuilt, NOTHING_DRAWN } from '../sites/as-built.js';
import { daysBetween, installedDaysAgo, siteExposure } from './exposure.js';

const NOW = new Date('2026-01-31T00:00:00Z');

/** Trunk A of stations `1`, `2`… with units put in on these days. */
function asBuiltWith(unitDays: (string | null)[], headEndDay: string | null): AsBuilt {
  const nodes = unitDays.map((unitInstalledOn, n) => ({
    ...blankNode(String(n + 1)),
    fedFrom: n === 0 ? null : String(n),
    unitInstalledOn,
  }));
  return {
    headEnd: { ...NOTHING_DRAWN.headEnd, installedOn: headEndDay },
    trunks: [{ trunk: 'A', name: 'A', port: null, nodes }],
  };
}

describe('days since a component was put in', () => {
  const asBuilt = asBuiltWith(['2026-01-21', '2026-01-11'], '2026-01-01');
  const days = installedDaysAgo(asBuilt, NOW);

  it('go by the unit, and for cabling by the oldest unit of the trunk', () => {
    expect(days({ component: 'station', trunk: 'A', node: '1' })).toBe(10);
    expect(days({ component: 'junction-in', trunk: 'A', node: '1' })).toBe(20);
    expect(days({ component: 'port', trunk: 'A' })).toBe(20);
    expect(days({ component: 'head-end' })).toBe(30);
  });

  it('go by what else is known of the site, or by how long a fault may go unnoticed', () => {
    const unknown = installedDaysAgo(asBuiltWith([null], null), NOW);
    expect(unknown({ component: 'cable', trunk: 'A', node: '1' })).toBe(180);
    const byHeadEnd = asBuiltWith([null], '2026-01-21');
    const known = installedDaysAgo(byHeadEnd, NOW);
    expect(known({ component: 'station', trunk: 'A', node: '1' })).toBe(10);
  });

  it('are at least one, and at a site as long as its oldest unit is there', () => {
    expect(daysBetween(NOW, NOW)).toBe(1);
    expect(siteExposure(asBuilt, NOW)).toEqual({
      days: 30,
      reason: 'its oldest unit was installed',
    });
    expect(siteExposure(asBuiltWith([], null), NOW).days).toBe(180);
  });
});
