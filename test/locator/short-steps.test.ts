import { describe, expect, it } from '@jest/globals';
import { locate } from '#app/locator/index.js';
import { named, oracleNumbers } from './compare.js';
import { box, ELECTRICAL, loop, saw, station } from './request-builders.js';

/** Only cables fail, by shorts of two cores, four and two times as often as by default: what is left of a trunk of any length can be enumerated. */
const RATES = {
  headEnd: { amplifier: 0.01 },
  station: {},
  port: {},
  junction: {},
  cablePerMetre: { 'short-speech': 2e-5, 'short-select': 1e-5 },
};
const SOUND = { exposureDays: 0 };

/** A branch of the tee that ends in three cables that can fail, behind `sound` that cannot, 200 m in all. */
function branch(name: string, sound: number, metres: readonly number[]) {
  const rooms = [...Array<number>(sound).fill(200 / sound), ...metres];
  return rooms.map((cableMetres, i) => ({
    ...station(`${name}${i + 1}`, cableMetres, i === 0 ? 'T' : `${name}${i}`),
    ...(i < sound && SOUND),
  }));
}

/** Two branches whose shorts lie at distances of 200 to 290 m by turns. */
function tee(sound: number) {
  const nodes = [
    { ...box('T', 10), ...SOUND },
    ...branch('A', sound, [20, 26, 38]),
    ...branch('B', sound, [31, 24, 30]),
  ];
  const ends = [`A${sound + 3}`, `B${sound + 3}`];
  return {
    trunks: [{ id: 'A', nodes }],
    exposureDays: 365,
    rates: RATES,
    electrical: ELECTRICAL,
    observations: ends.flatMap((end) => [
      saw(end, 'announcement', 'fails'),
      saw(end, 'bell', 'works'),
    ]),
    readings: [loop('speech', 9, 0.3), loop('select', 9.6, 0.3)],
  };
}

/** Of the cables that can fail, which have other names where more rooms come before them. */
function ofCables(numbers: Record<string, number>, sound: number): number[] {
  return ['A', 'B'].flatMap((name) =>
    [1, 2, 3].map((at) => numbers[`span A ${name}${sound + at}`] ?? NaN),
  );
}

describe('shorts of two branches at about the same distance', () => {
  it('are compared one by one on a trunk of 15 nodes, and in steps on one of 27: with a thousandth of a difference at most', () => {
    const [short, long] = [tee(4), tee(10)];
    const truth = oracleNumbers(short);
    expect(ofCables(oracleNumbers(long), 10)).toEqual(
      ofCables(truth, 4).map((chance) => expect.closeTo(chance, 12)),
    );
    const exact = locate(short);
    expect(exact.shortsInSteps).toBeUndefined();
    const inSteps = locate(long);
    expect(inSteps.shortsInSteps).toEqual(['A']);
    ofCables(named(exact), 4).forEach((chance, i) => {
      expect(chance).toBeCloseTo(ofCables(truth, 4)[i]!, 9);
    });
    const off = ofCables(named(inSteps), 10).map((chance, i) =>
      Math.abs(chance - ofCables(truth, 4)[i]!),
    );
    expect(Math.max(...off)).toBeLessThan(1e-3);
    expect(Math.max(...off)).toBeGreaterThan(1e-9);
  });

  const drawn = (rooms: number, feeder: (room: number) => number) => ({
    trunks: [
      {
        id: 'A',
        nodes: Array.from({ length: rooms }, (_room, n) =>
          station(`S${n}`, 6 + ((n * 7) % 11), n === 0 ? null : `S${feeder(n)}`),
        ),
      },
    ],
    exposureDays: 365,
    electrical: { ...ELECTRICAL, stationAmps: 0.001 },
    observations: [
      saw('S5', 'announcement', 'fails'),
      saw(`S${rooms - 1}`, 'announcement', 'fails'),
    ],
  });
  const TWO_TEES = drawn(100, (n) => ({ 60: 30, 85: 45 })[n] ?? n - 1);
  const CORES = ['supply', 'speech', 'select'];
  const loops = (uncertaintyOhms: number, count: number, ohms = 1.5) =>
    CORES.slice(-count).map((core, c) => loop(core, ohms + c / 4, uncertaintyOhms));

  it.each([
    ['a long trunk with two tees', TWO_TEES],
    ['a comb', drawn(120, (n) => (n % 4 === 3 ? n - 2 : n - 1))],
    ['a tree that parts everywhere', drawn(127, (n) => Math.floor((n + 1) / 2) - 1)],
    ['forty branches of the first room', drawn(121, (n) => (n % 3 === 1 ? 0 : n - 1))],
    ['a trunk of 300 with five tees', drawn(300, (n) => (n % 60 === 59 ? n - 40 : n - 1))],
  ])('on %s no loop is refused, however many cores and however good the meter', (_, request) => {
    for (const uncertaintyOhms of [0.02, 0.2, 2])
      for (const count of [1, 2, 3]) {
        const answer = locate({
          ...request,
          explanations: 0,
          readings: loops(uncertaintyOhms, count),
        });
        expect(answer.places.length).toBeGreaterThan(request.trunks[0]!.nodes.length);
      }
  });

  it('leave room for explanations on a long trunk with two tees, which account for all', () => {
    for (const uncertaintyOhms of [0.05, 0.5]) {
      const answer = locate({ ...TWO_TEES, readings: loops(uncertaintyOhms, 2, 15) });
      expect(answer.shortsInSteps).toEqual(['A']);
      const { explanations = [], uncovered = NaN } = answer;
      expect(explanations).toHaveLength(10);
      const told = explanations.reduce((sum, { probability }) => sum + probability, 0);
      expect(told + uncovered).toBeCloseTo(1, 9);
    }
  });
});
