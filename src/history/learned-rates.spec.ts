import { describe, expect, it } from '@jest/globals';
import { blankNode } from '../sites/as-built-fields.js';
import { type Component, DEFAULT_RATES } from '../locator/index.js';
import { type AsBuilt, NOTHING_DRAWN } from '../sites/as-built.js';
import { grouped } from '../statistics/learn-rates.js';
import { classesAtSite } from './class-at-site.js';
import { learnModes, MODEL_RATES, ratesAtSite, yearsOfRecord } from './learned-rates.js';
import type { Repair } from './ticket-experience.js';
import { componentKey } from './work-done.js';

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

const partedAt = (node: string, events = 1): Repair => {
  return { component: componentKey(joint(node)), mode: 'parted', events };
};

const joint = (node: string): Component => ({ component: 'junction-in', trunk: 'A', node });
const drawings: Record<string, AsBuilt> = {
  one: siteOf('Brindle 2'),
  two: siteOf('Brindle 2'),
  other: siteOf('Corvane'),
};

/** The rates of each site, by what is kept of all. */
const learn = (first: Repair[], second: Repair[] = []) => {
  const classes = Object.entries(drawings).flatMap(([siteId, asBuilt]) =>
    classesAtSite(asBuilt, { one: first, two: second }[siteId] ?? []).map((one) => ({
      siteId,
      ...one,
    })),
  );
  const learned = [...grouped(classes, ({ className }) => className)].flatMap(
    ([className, sites]) => learnModes({ className, years: yearsOfRecord(SINCE, TODAY), sites }),
  );
  return (site: string, component: Component) => {
    const atSite = learned.map(({ sites, learnedFrom: _from, ...one }) => ({
      ...one,
      siteRate: sites[site]?.rate ?? null,
      events: sites[site]?.events ?? null,
    }));
    return ratesAtSite(atSite, drawings[site]!)(component);
  };
};

describe('rates by a firm’s record', () => {
  it('are the model’s to the digit where nothing was learned', () => {
    expect(learnModes({ className: 'station Brindle 2', years: 1, sites: [] })).toEqual([]);
    expect(ratesAtSite([], drawings.one!)).toBe(MODEL_RATES);
    expect(MODEL_RATES(joint('2'))).toBe(DEFAULT_RATES.junction);
    expect(MODEL_RATES({ component: 'port', trunk: 'A' })).toBe(DEFAULT_RATES.port);
    expect(MODEL_RATES({ component: 'head-end' })).toBe(DEFAULT_RATES.headEnd);
  });

  it('rise for the component, its site and its class, in that order', () => {
    const rates = learn([partedAt('2', 3)]);
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
    const whole = learn([partedAt('2')])('one', joint('2')).parted!;
    const half = learn([partedAt('2', 0.5)])('one', joint('2')).parted!;
    expect(half).toBeLessThan(whole);
    expect(half).toBeGreaterThan(learn([], [partedAt('2')])('one', joint('2')).parted!);
  });

  it('are the model’s for what is not on the current drawing', () => {
    expect(learn([partedAt('2')])('one', joint('99'))).toBe(DEFAULT_RATES.junction);
  });

  it('need as much of a site as there are kinds of parts, not as there are rooms', () => {
    const [joints] = classesAtSite(drawings.one!, [partedAt('2'), partedAt('99')]).filter(
      ({ className }) => className === 'terminals station Brindle 2',
    );
    // Of ten stations the joint before, and of nine the one behind.
    expect(joints).toMatchObject({ group: 'junction', exposures: [[1, 19]] });
    expect(joints!.repaired).toEqual([
      { component: componentKey(joint('2')), yearlyExposure: 1, events: { parted: 1 } },
    ]);
  });
});
