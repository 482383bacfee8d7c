// Requests that are meant to cost much, by no rate of a real site: fans, tees, combs, bushes, many trunks, many callers.
import { FUNCTIONS, type LocateRequest } from '#app/locator/index.js';
import { seededRandom } from '#app/statistics/seeded-random.js';

type Node = LocateRequest['trunks'][number]['nodes'][number];

const DAYS = 365;
const CENTURY = 36_500;

const range = (count: number) => Array.from({ length: count }, (_, i) => i);

const station = (id: string, fedFrom: string | null): Node => {
  return { id, kind: 'station', cableMetres: 15, fedFrom };
};
const box = (id: string, fedFrom: string | null): Node => {
  return { id, kind: 'junction-box', cableMetres: 15, fedFrom };
};

const row = (count: number) => range(count).map((i) => station(`S${i}`, i ? `S${i - 1}` : null));
const fan = (count: number) => range(count).map((i) => station(`S${i}`, null));
const binary = (count: number) =>
  range(count).map((i) => station(`S${i}`, i ? `S${(i - 1) >> 1}` : null));
/** So many first spans of so many rooms in a row each, no two of which are as long. */
const branches = (count: number, rooms: number) =>
  range(count * rooms).map((i) => {
    const above = i % rooms === 0 ? null : `S${i - 1}`;
    return { ...station(`S${i}`, above), cableMetres: 10 + (i % 7) + i / 1000 };
  });
const tee = (count: number) => [
  box('T', null),
  ...range(count - 1).map((i) => station(`S${i}`, 'T')),
];
const comb = (count: number) =>
  range(Math.floor(count / 3)).flatMap((i) => [
    box(`B${i}`, i ? `B${i - 1}` : null),
    station(`S${3 * i}`, `B${i}`),
    station(`S${3 * i + 1}`, `B${i}`),
  ]);

function bush(count: number): Node[] {
  const random = seededRandom(7);
  return range(count).map((i) => station(`S${i}`, i ? `S${Math.floor(random() * i)}` : null));
}

const one = (nodes: Node[]) => [{ id: 'A', nodes }];
const functionAt = (i: number) => FUNCTIONS[i % FUNCTIONS.length]!;

/** Every station of which `isTold`, of one function each in turn; every `silent`-th is not heard. */
function told(nodes: readonly Node[], silent: number, isTold: (i: number) => boolean = () => true) {
  return nodes
    .filter(({ kind }) => kind === 'station')
    .map(({ id }, i) => ({
      trunk: 'A',
      node: id,
      function: functionAt(i),
      outcome: i % silent === 1 ? 'fails' : 'works',
    }))
    .filter((_, i) => isTold(i));
}

/** Every place of a short is as likely as any other, as far as such a meter tells. */
function withLoops(observations: object[], nodes: Node[], cores: string[]) {
  const loop = (core: string) => {
    return { kind: 'loop-ohms', trunk: 'A', core, ohms: 1.5, uncertaintyOhms: 1.5 };
  };
  const electrical = { sourceVolts: 24, sourceOhms: 0.2, stationAmps: 1e-6, coreOhmsPerKm: 18.1 };
  return {
    trunks: one(nodes),
    exposureDays: DAYS,
    electrical,
    observations,
    readings: cores.map(loop),
  };
}

/** Two rooms each of one trunk, silent from 60 % of the way on. */
function callers(count: number, rooms: number) {
  const random = seededRandom(5);
  return range(count).flatMap((c) =>
    range(2).map(() => {
      const room = Math.floor(random() * rooms);
      return {
        trunk: 'A',
        node: `S${room}`,
        function: 'announcement',
        outcome: room < rooms * 0.6 ? 'works' : 'fails',
        informant: { id: `c${c}`, kind: 'office' },
      };
    }),
  );
}

const ALL_FAULTS = {
  parted: 0.02,
  'open-supply': 0.02,
  'open-return': 0.02,
  'open-speech': 0.02,
  'open-select': 0.02,
  'short-supply': 0.02,
  'short-speech': 0.02,
  'short-select': 0.02,
  resistive: 0.02,
};

export const firstSpansToldOf = (count: number) => ({
  trunks: one(fan(count)),
  exposureDays: DAYS,
  observations: told(fan(count), 2),
});

/** By what they are called in the benchmark; each is made when it is asked for. */
export const HOSTILE: Readonly<Record<string, () => unknown>> = {
  '60 trunks of 20, the lower half of each silent, 10 explanations': () => ({
    trunks: range(60).map((t) => ({ id: `T${t}`, nodes: row(20) })),
    exposureDays: DAYS,
    observations: range(60).flatMap((t) =>
      range(20).map((i) => {
        const outcome = i < 10 ? 'works' : 'fails';
        return { trunk: `T${t}`, node: `S${i}`, function: 'announcement', outcome };
      }),
    ),
  }),
  '300 stations off one tee, a hundred years': () => ({
    trunks: one(tee(301)),
    exposureDays: CENTURY,
  }),
  '150 nodes, 17 observations, ten years': () => ({
    trunks: one(bush(150)),
    exposureDays: 10 * DAYS,
    observations: told(bush(150), 2, (i) => i % 9 === 0),
  }),
  '7 nodes with every fault likely, all told of, 1,000 explanations': () => ({
    trunks: one(binary(7)),
    exposureDays: CENTURY,
    rates: { junction: ALL_FAULTS },
    observations: range(7).flatMap((i) =>
      FUNCTIONS.map((name, f) => {
        const outcome = (i * 3 + f) % 2 ? 'works' : 'fails';
        return { trunk: 'A', node: `S${i}`, function: name, outcome };
      }),
    ),
    explanations: 1000,
  }),
  'a tee of 41, six functions, every second silent': () => ({
    trunks: one(tee(41)),
    exposureDays: DAYS,
    observations: range(40).flatMap((i) =>
      FUNCTIONS.map((name) => {
        const outcome = i % 2 ? 'works' : 'fails';
        const informant = { kind: 'technician' };
        return { trunk: 'A', node: `S${i}`, function: name, outcome, informant };
      }),
    ),
  }),
  'a fan of 700, every second silent': () => ({
    trunks: one(fan(700)),
    exposureDays: DAYS,
    observations: told(fan(700), 2).map((said) => ({ ...said, function: 'announcement' })),
  }),
  'a comb of 600, half told of, 1,000 explanations': () => ({
    trunks: one(comb(600)),
    exposureDays: DAYS,
    observations: told(comb(600), 2, (i) => i % 2 === 0),
    explanations: 1000,
  }),
  '5,000 first spans, nothing told': () => ({ trunks: one(fan(5000)), exposureDays: DAYS }),
  '5,000 first spans, all told of': () => firstSpansToldOf(5000),
  'a bush of 5,000, a tenth told of': () => ({
    trunks: one(bush(5000)),
    exposureDays: DAYS,
    observations: told(bush(5000), 3, (i) => i % 10 === 1),
  }),
  'a bush of 5,000, all told of': () => ({
    trunks: one(bush(5000)),
    exposureDays: DAYS,
    observations: told(bush(5000), 3),
  }),
  '5,000 in a row, every second silent, a hundred years': () => ({
    trunks: one(row(5000)),
    exposureDays: CENTURY,
    observations: told(row(5000), 2),
  }),
  '2,500 callers of two rooms each over 2,000': () => ({
    trunks: one(row(2000)),
    exposureDays: 91,
    observations: callers(2500, 2000),
    explanations: 0,
  }),
  'two branches of 250, all told of, a loop by a poor meter': () =>
    withLoops(told(branches(2, 250), 5), branches(2, 250), ['speech']),
  'fifty branches of 10, all told of, a loop by a poor meter': () =>
    withLoops(told(branches(50, 10), 5), branches(50, 10), ['speech']),
  'a bush of 1,000, all told of, a loop by a poor meter': () =>
    withLoops(told(bush(1000), 5), bush(1000), ['speech']),
  'a comb of 600, all told of, loops of three cores by a poor meter': () =>
    withLoops(told(comb(600), 5), comb(600), ['speech', 'select', 'supply']),
};
