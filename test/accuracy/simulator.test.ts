import { describe, expect, it } from '@jest/globals';
import { seededRandom } from '../electrical/seeded-random.js';
import { priors } from '../locator/oracle/mode-chances.js';
import { downThrough, upThrough } from '../locator/oracle/span-kinds.js';
import { bit, conditionOf } from '../locator/oracle/tables.js';
import { drawAsModel } from './draw-as-model.js';
import { drawFaults, type Faults, MODEL_RATES, scaleRates } from './faults.js';
import { likeliestByRates, nearestSilentRoom, topMostAllSilentSpan } from './habits.js';
import { COMPLAINED, OTHER_ROWS } from './rows.js';
import { drawCases, judge, type Row, runRow } from './run-row.js';
import { expectedBits, hits, logScoreBits, meanOf } from './score.js';
import { drawSite, roomsOf, type Site, type Trunk } from './site.js';
import { type Outcome, told } from './tell.js';
import { ALL_FUNCTIONS, trueConditions } from './true-conditions.js';
import { cases } from '../support/thorough.js';

/** Feeds of one trunk step by step, as the fault model's section 3 has it, with the oracle's steps. */
function feedsByStep(trunk: Trunk, faults: Faults['trunks'][number]): number[] {
  const viewAt = (node: number): number =>
    trunk.nodes.reduce(
      (view, { feeder }, child) => (feeder === node ? view | viewAbove(child) : view),
      faults.nodes[node]?.station === 'short-supply' ? bit('supply') : 0,
    );
  const viewAbove = (node: number) => {
    const { junctionOut, cable, junctionIn } = faults.nodes[node]!;
    return upThrough(junctionOut, upThrough(cable, upThrough(junctionIn, viewAt(node))));
  };
  const port = 15 & ~viewAt(-1) & (faults.port === 'ok' ? 15 : ~bit('supply'));
  const feeds: number[] = [];
  trunk.nodes.forEach(({ feeder }, n) => {
    const { junctionOut, cable, junctionIn } = faults.nodes[n]!;
    const above = feeder < 0 ? port : feeds[feeder]!;
    feeds.push(downThrough(junctionIn, downThrough(cable, downThrough(junctionOut, above))));
  });
  return feeds;
}

describe('the simulator', () => {
  it('finds along whole paths what the oracle finds step by step', () => {
    const random = seededRandom(20);
    const counts = { good: 0, weak: 0, dead: 0 };
    for (let run = 0; run < 60; run++) {
      const site = drawSite(random);
      const faults = drawFaults(
        site,
        scaleRates(() => 10 * random()),
        random,
      );
      const condition = trueConditions(site, faults);
      const feeds = site.trunks.map((trunk, t) => feedsByStep(trunk, faults.trunks[t]!));
      for (const { trunk, node } of roomsOf(site))
        for (const name of ALL_FUNCTIONS) {
          const { station } = faults.trunks[trunk]!.nodes[node]!;
          const expected = conditionOf(name, faults.headEnd, station, feeds[trunk]![node]!);
          expect(condition(trunk, node, name)).toBe(expected);
          counts[expected]++;
        }
    }
    expect(Math.min(...Object.values(counts))).toBeGreaterThan(200);
  });

  it('draws modes as often as their priors say', () => {
    const random = seededRandom(21);
    const site: Site = {
      trunks: [{ id: 'A', nodes: [{ id: 'A1', kind: 'station', feeder: -1, cableMetres: 900 }] }],
      exposureDays: 1000,
    };
    const years = site.exposureDays / 365.25;
    const draws = Array.from({ length: 8000 }, () => drawFaults(site, MODEL_RATES, random));
    const compare = (chances: Record<string, number>, modeOf: (faults: Faults) => string) => {
      for (const [mode, chance] of Object.entries(chances)) {
        const drawn = draws.filter((faults) => modeOf(faults) === mode).length / draws.length;
        const standardError = Math.sqrt((chance * (1 - chance)) / draws.length);
        expect([mode, Math.abs(drawn - chance) < 4.5 * standardError]).toEqual([mode, true]);
      }
    };
    const node = (faults: Faults) => faults.trunks[0]!.nodes[0]!;
    compare(priors(MODEL_RATES.headEnd, 1, years), ({ headEnd }) => headEnd);
    compare(priors(MODEL_RATES.port, 1, years), ({ trunks }) => trunks[0]!.port);
    compare(priors(MODEL_RATES.station, 1, years), (faults) => node(faults).station);
    compare(priors(MODEL_RATES.junction, 1, years), (faults) => node(faults).junctionIn);
    compare(priors(MODEL_RATES.cablePerMetre, 900, years), (faults) => node(faults).cable);
  });

  it('makes the same cases from the same seed and others from another', () => {
    const casesOf = (seed: number) => [
      ...drawCases({ name: '', sameAsModel: true, seed, cases: 3, draw: drawAsModel }),
    ];
    expect(casesOf(22)).toEqual(casesOf(22));
    expect(casesOf(22)).not.toEqual(casesOf(24));
  });

  it('puts every trap to the locator', () => {
    for (const row of OTHER_ROWS) {
      const each = cases({ all: 2, usual: 1 });
      const outcomes = runRow({ ...row, cases: each });
      expect(outcomes).toHaveLength(each);
      for (const { bits, expectedBits: expected, trueBits = 0 } of outcomes)
        expect([bits, expected, trueBits].every((x) => x >= 0 && x < Infinity)).toBe(true);
    }
  });
});

describe('scores', () => {
  const chances = new Map([
    ['span A 0', 0.7],
    ['station A A1', 0.2],
    ['port A', 0.01],
  ]);

  it('expect the mean over all truths', () => {
    const places = [...chances.keys()];
    let mean = 0;
    for (let set = 0; set < 8; set++) {
      const truth = new Set(places.filter((_, p) => set & (1 << p)));
      const chance = places.reduce(
        (product, place) =>
          product * (truth.has(place) ? chances.get(place)! : 1 - chances.get(place)!),
        1,
      );
      mean += chance * logScoreBits(chances, truth, places);
    }
    expect(expectedBits(chances, places)).toBeCloseTo(mean, 12);
  });

  it('count a true place among those named', () => {
    expect(hits(['a', 'b', 'c', 'd'], new Set(['c']))).toEqual({ first: false, firstThree: true });
    expect(hits(['a', 'b', 'c', 'd'], new Set(['d']))).toEqual({ first: false, firstThree: false });
    expect(hits(['a'], new Set(['a', 'd']))).toEqual({ first: true, firstThree: true });
    expect(hits([], new Set(['a']))).toEqual({ first: false, firstThree: false });
  });

  it('are what they should be where generator = model, and not where a trap is walked into', () => {
    const gap = (row: Row, count: number) => {
      const outcomes = runRow({ ...row, cases: count });
      const { mean, standardError } = meanOf(outcomes.map((o) => o.bits - o.expectedBits));
      return mean / standardError;
    };
    const asModel = { name: '', sameAsModel: true, seed: 23, cases: 240, draw: drawAsModel };
    expect(Math.abs(gap(asModel, cases({ all: 240, usual: 16 })))).toBeLessThan(4);
    expect(gap(OTHER_ROWS[1]!, cases({ all: 240, usual: 24 }))).toBeGreaterThan(4);
  });

  it('are what they should be where calls arise from trouble', () => {
    const drawn = [...drawCases({ ...COMPLAINED, cases: cases({ all: 80, usual: 24 }) })];
    expect(drawn.every(({ request }) => request.begunBy === 'complaint')).toBe(true);
    const gaps = drawn.map(judge).map((o) => o.bits - o.expectedBits);
    const { mean, standardError } = meanOf(gaps);
    expect(Math.abs(mean / standardError)).toBeLessThan(4);
  });
});

describe('habits', () => {
  // A1 - A2 - A3 - A4, and A5 from A1.
  const site: Site = {
    trunks: [
      {
        id: 'A',
        nodes: [-1, 0, 1, 2, 0].map((feeder, n) => {
          return { id: `A${n + 1}`, kind: 'station', feeder, cableMetres: n === 4 ? 5 : 10 };
        }),
      },
    ],
    exposureDays: 91,
  };
  const say = (node: number, outcome: Outcome) =>
    told(site, { trunk: 0, node: node - 1 }, 'bell', outcome, { kind: 'office' });
  const evidence = [say(1, 'works'), say(3, 'fails'), say(4, 'fails'), say(5, 'fails')];

  it('go to the silent room with the least cable to it', () => {
    expect(nearestSilentRoom(site, evidence).slice(0, 3)).toEqual([
      'station A A5',
      'span A 4',
      'station A A3',
    ]);
  });

  it('go to the top-most span with only silent rooms behind it', () => {
    expect(topMostAllSilentSpan(site, evidence)).toEqual([
      'span A 1',
      'span A 2',
      'span A 4',
      'span A 3',
    ]);
  });

  it('go to what fails most often and is not excused', () => {
    expect(likeliestByRates(site, evidence)).toEqual([
      'station A A3',
      'station A A4',
      'station A A5',
      'span A 1',
      'span A 2',
      'span A 3',
      'span A 4',
    ]);
    expect(likeliestByRates(site, [say(3, 'fails')])[0]).toBe('head-end');
  });

  it('believe the many', () => {
    expect(nearestSilentRoom(site, [say(3, 'fails'), say(3, 'works')])).toEqual([]);
  });
});
