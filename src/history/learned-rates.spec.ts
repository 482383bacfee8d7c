import { describe, expect, it } from '@jest/globals';
import { blankNode } from '../sites/as-built-fields.js';
import { type Component, DEFAULT_RATES } from '../locator/index.js';
import { type AsBuilt, NOTHING_DRAWN } from '../sites/as-built.js';
import { learnClasses, learnedKey, MODEL_RATES, ratesAtSite } from './learned-rates.js';
import type { Found } from './work-done.js';

const SINCE = new Date('2025-01-01T00:00:00Z');
const TODAY = new Date('2026-01-01T00:00:00Z');

/** Ten stations of a model in a row. */
function siteOf(unitModel: string): AsBuilt {
  const nodes = Array.from({ length: 10 }, (_, n) => ({
    ...blankNode(String(n + 1)),
    fedFrom: n === 0 ? null : String(n),
    cableType: 'four-core',
    unitModel,
  }));
  return { ...NOTHING_DRAWN, trunks: [{ trunk: 'A', name: 'A', port: null, nodes }] };
}

function found(events: number, more: Partial<Found> = {}): Found {
  return {
    ticketId: 'T',
    place: { kind: 'span', trunk: 'A', from: '1', to: '2' },
    component: 'junction-in',
    mode: 'parted',
    foundAt: TODAY,
    mending: 'lasting',
    mendedAt: TODAY,
    shares: [{ component: 'junction-in', mode: 'parted', events }],
    ...more,
  };
}

const joint = (node: string): Component => ({ component: 'junction-in', trunk: 'A', node });
const drawings: Record<string, AsBuilt> = {
  one: siteOf('Brindle 2'),
  two: siteOf('Brindle 2'),
  other: siteOf('Corvane'),
};

const learnAll = (first: Found[], second: Found[] = [], known: Record<string, string> = {}) =>
  learnClasses({
    sites: Object.entries(drawings).map(([siteId, asBuilt]) => {
      return { siteId, asBuilt, found: { one: first, two: second }[siteId] ?? [] };
    }),
    recordedSince: SINCE,
    today: TODAY,
    known,
  });

/** The rates of each site, by what is kept of all. */
const learn = (first: Found[], second: Found[] = []) => {
  const { changed } = learnAll(first, second);
  return (site: string, component: Component) => {
    const atSite = changed.map(({ sites, learnedFrom: _from, ...one }) => ({
      ...one,
      siteRate: sites[site]?.rate ?? null,
      events: sites[site]?.events ?? null,
    }));
    return ratesAtSite(atSite, drawings[site]!)(component);
  };
};

describe('rates by a firm’s record', () => {
  it('are the model’s to the digit where nothing was found, or only touched', () => {
    expect(learnAll([])).toEqual({ changed: [], all: [] });
    expect(learnAll([found(1, { mending: null, mendedAt: null })]).all).toEqual([]);
    expect(ratesAtSite([], drawings.one!)).toBe(MODEL_RATES);
    expect(MODEL_RATES(joint('2'))).toBe(DEFAULT_RATES.junction);
    expect(MODEL_RATES({ component: 'port', trunk: 'A' })).toBe(DEFAULT_RATES.port);
    expect(MODEL_RATES({ component: 'head-end' })).toBe(DEFAULT_RATES.headEnd);
  });

  it('rise for the component, its site and its class, in that order', () => {
    const rates = learn([found(1), found(1), found(1)]);
    const parted = (site: string, node: string) => rates(site, joint(node)).parted!;
    expect(parted('one', '2')).toBeGreaterThan(parted('one', '3'));
    expect(parted('one', '3')).toBeGreaterThan(parted('two', '3'));
    expect(parted('two', '3')).toBeGreaterThan(DEFAULT_RATES.junction.parted!);
    expect(parted('other', '3')).toBeLessThan(DEFAULT_RATES.junction.parted!);
    expect(rates('one', joint('2'))['open-speech']).toBeLessThan(
      DEFAULT_RATES.junction['open-speech']!,
    );
  });

  it('learn a part of what is a part of one event', () => {
    const whole = learn([found(1)])('one', joint('2')).parted!;
    const half = learn([found(0.5)])('one', joint('2')).parted!;
    expect(half).toBeLessThan(whole);
    expect(half).toBeGreaterThan(learn([], [found(1)])('one', joint('2')).parted!);
  });

  it('are the model’s for what is not on the current drawing', () => {
    expect(learn([found(1)])('one', joint('99'))).toBe(DEFAULT_RATES.junction);
  });
  it('are learned again for the classes whose record has changed, and no others', () => {
    const before = learnAll([found(1)]);
    const known = Object.fromEntries(
      before.changed.map((one) => [learnedKey(one), one.learnedFrom]),
    );
    expect(learnAll([found(1)], [], known)).toEqual({ changed: [], all: before.all });
    const { changed } = learnAll([found(1)], [found(1)], known);
    expect(changed.map(({ className, mode }) => [className, mode])).toEqual([
      ['terminals station Brindle 2', 'parted'],
    ]);
    expect(before.changed.length).toBeGreaterThan(10);
  });
});
