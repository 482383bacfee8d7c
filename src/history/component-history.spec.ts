import { describe, expect, it } from '@jest/globals';
import type { Component } from '../locator/index.js';
import { NOTHING_DRAWN } from '../sites/as-built.js';
import { MODEL_RATES } from './learned-rates.js';
import { siteHistory } from './component-history.js';
import type { Found } from './work-done.js';

const NOW = new Date('2026-01-31T00:00:00Z');
const day = (of: number) => new Date(Date.UTC(2026, 0, of));
const found = (more: Partial<Found> = {}): Found => ({
  ticketId: 'T',
  place: { kind: 'span', trunk: 'A', from: '1', to: '2' },
  component: 'junction-in',
  mode: null,
  foundAt: day(11),
  mending: 'lasting',
  mendedAt: day(21),
  shares: [],
  ...more,
});
const of = (...list: Found[]) =>
  siteHistory({ asBuilt: NOTHING_DRAWN, proofs: [], found: list, nearby: [] }, MODEL_RATES, NOW);
const joint: Component = { component: 'junction-in', trunk: 'A', node: '2' };
const cable: Component = { component: 'cable', trunk: 'A', node: '2' };

describe('the record of a site', () => {
  it('has a joint that was mended as new, and touched, since then', () => {
    const record = of(found());
    expect([record.newDaysAgo(joint), record.touchedDaysAgo(joint)]).toEqual([10, 10]);
    expect([record.newDaysAgo(cable), record.touchedDaysAgo(cable)]).toEqual([180, undefined]);
  });

  it('has what was only touched, or bridged, as old as it was', () => {
    const touched = of(found({ mending: null, mendedAt: null }));
    expect([touched.newDaysAgo(joint), touched.touchedDaysAgo(joint)]).toEqual([180, 20]);
    const bridged = of(found({ mending: 'temporary' }));
    expect([bridged.newDaysAgo(joint), bridged.touchedDaysAgo(joint)]).toEqual([180, 10]);
  });

  it('has all of a span touched and none of it as new, where no component was named', () => {
    const record = of(found({ component: null }));
    expect([record.newDaysAgo(cable), record.touchedDaysAgo(cable)]).toEqual([180, 10]);
  });

  it('does not know what is yet to come', () => {
    expect(of(found({ foundAt: NOW, mendedAt: NOW })).touchedDaysAgo(joint)).toBeUndefined();
    expect(of(found({ mendedAt: NOW })).touchedDaysAgo(joint)).toBe(20);
  });

  it('does not take a station for new because its volume was turned up', () => {
    const place = { kind: 'station', trunk: 'A', node: '2' } as const;
    const station: Component = { component: 'station', trunk: 'A', node: '2' };
    const record = of(found({ place, component: 'station' }));
    expect([record.newDaysAgo(station), record.touchedDaysAgo(station)]).toEqual([180, 10]);
  });
});
