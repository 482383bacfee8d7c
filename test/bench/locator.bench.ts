import {
  FUNCTIONS,
  intermittent,
  locate,
  type LocateRequest,
  type SittingsRequest,
} from '#app/locator/index.js';
import { genericLogEvidence } from '../locator/generic-elimination.js';
import { fixedLoopMilliseconds, processorTimes } from './processor-time.js';

/** One trunk of stations in a row, every function asked about somewhere, silent from 60 % of the way on. */
export function benchRequest(stations: number, observations: number): LocateRequest {
  return {
    trunks: [
      {
        id: 'A',
        nodes: Array.from({ length: stations }, (_, n) => ({
          id: `S${n + 1}`,
          kind: 'station' as const,
          cableMetres: 8 + ((n * 7) % 13),
        })),
      },
    ],
    exposureDays: 91,
    observations: Array.from({ length: observations }, (_, o) => {
      const n = Math.floor((o * stations) / observations);
      return {
        trunk: 'A',
        node: `S${n + 1}`,
        function: FUNCTIONS[o % FUNCTIONS.length] ?? 'lamp',
        outcome: n > stations * 0.6 ? 'fails' : 'works',
      };
    }),
  };
}

export function medianMilliseconds(runs: number, work: () => unknown): number {
  const times = Array.from({ length: runs }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  });
  times.sort((a, b) => a - b);
  return times[Math.floor(runs / 2)] ?? NaN;
}

/** The same with two tees: rooms 61 and 86 of 100 hang at rooms 31 and 46. */
function withTees(request: LocateRequest): LocateRequest {
  const [trunk] = request.trunks;
  if (!trunk) return request;
  const room = (share: number) => Math.round(trunk.nodes.length * share);
  const tees = new Map([
    [room(0.6), room(0.3)],
    [room(0.85), room(0.45)],
  ]);
  const nodes = trunk.nodes.map((node, n) => {
    return { ...node, fedFrom: n === 0 ? null : `S${tees.get(n) ?? n}` };
  });
  return { ...request, trunks: [{ ...trunk, nodes }] };
}

/** What else was read: of three stretches tried for continuity, some of which overlap, and of the loops of two cores. */
const READ: [what: string, stretches: number[], loops: number[]][] = [
  ['a stretch tried for continuity', [1], []],
  ['three stretches, two of them overlapping', [0, 1, 2], []],
  ['the loop of a core', [], [0]],
  ['a stretch and a loop', [1], [0]],
  ['the loops of two cores', [], [0, 1]],
  ['three stretches and two loops', [0, 1, 2], [0, 1]],
];

/** Of one with two tees, whose branches all reach as far as the short would be. */
const READ_OF_BRANCHES: typeof READ = READ.filter(([, stretches]) => stretches.length === 0);
const OHMS_OF_BRANCHES = 20;

/** The same with so much of it read. */
function readAlong(
  request: LocateRequest,
  stretches: readonly number[],
  loops: readonly number[],
  ohms: number,
): LocateRequest {
  const at = (share: number) => `S${Math.round((request.trunks[0]?.nodes.length ?? 0) * share)}`;
  const tried = (from: string | null, to: string, passes: boolean) => {
    return {
      kind: 'continuity' as const,
      trunk: 'A',
      from,
      to,
      cores: ['supply' as const],
      passes,
    };
  };
  const loop = (core: 'speech' | 'select', ohms: number) => {
    return { kind: 'loop-ohms' as const, trunk: 'A', core, ohms, uncertaintyOhms: 0.2 };
  };
  const triedAll = [
    tried(null, at(0.5), true),
    tried(at(0.4), at(0.7), false),
    tried(at(0.55), at(0.65), false),
  ];
  const loopsRead = [loop('speech', ohms), loop('select', ohms + 1)];
  return {
    ...request,
    electrical: {
      sourceVolts: 24,
      sourceOhms: 0.2,
      stationAmps: 0.08,
      coreOhmsPerKm: 18.1,
      celsius: 20,
    },
    readings: [
      ...triedAll.filter((_, i) => stretches.includes(i)),
      ...loopsRead.filter((_, i) => loops.includes(i)),
    ],
  };
}

const median = (times: readonly number[]) => times[Math.floor(times.length / 2)] ?? NaN;

/** Milliseconds of the processor, the median of so many runs of each, which take turns. */
function mediansByTurns(runs: number, works: readonly (() => void)[]): number[] {
  const times = works.map((): number[] => []);
  for (let run = 0; run < runs; run++)
    works.forEach((work, w) => times[w]?.push(...processorTimes(1, work)));
  return times.map((list) => median(list.sort((a, b) => a - b)));
}

/** The same in two sittings: all was well in the first. */
function inSittings(request: LocateRequest): SittingsRequest {
  const { trunks, exposureDays, observations = [] } = request;
  return {
    trunks,
    exposureDays,
    observations: observations.flatMap((said) => [
      { ...said, outcome: 'works' as const, sitting: 0 },
      { ...said, sitting: 1 },
    ]),
  };
}

/** What comes and goes: how its cost grows with the stations, and beside a location of the same. */
function benchIntermittent(): void {
  const works = [1250, 2500, 5000].flatMap((stations) => {
    const request = benchRequest(stations, 60);
    const sittings = inSittings(request);
    return [() => intermittent(sittings), () => locate(request)];
  });
  const [once = NaN, , twice = NaN, , fourTimes = NaN, located = NaN] = mediansByTurns(5, works);
  console.log(
    `  what comes and goes, two sittings, 5,000 stations  ${fourTimes.toFixed(0)} ms, ` +
      `${(fourTimes / located).toFixed(1)} times a location of the same; for twice the stations ` +
      `${(twice / once).toFixed(1)} and again ${(fourTimes / twice).toFixed(1)} times the time`,
  );
}

/** What readings add to a location: each beside the same without, in turns. */
function benchReadings(
  request: LocateRequest,
  name: string,
  reads: typeof READ,
  ohms: number,
): void {
  for (const [what, stretches, loops] of reads) {
    const read = readAlong(request, stretches, loops, ohms);
    const [plain = NaN, withReadings = NaN] = mediansByTurns(21, [
      () => locate(request),
      () => locate(read),
    ]);
    console.log(
      `  ${name}, ${what}  ${withReadings.toFixed(0)} ms, ` +
        `${(withReadings / plain).toFixed(1)} times that without (aim: 5)`,
    );
  }
}

/**
 * Prints what one location costs, all outputs, by the clock and of the processor (with what collects and compiles meanwhile),
 * beside a fixed loop, and how it grows; and of the plain generic solver, log P only.
 */
export function benchLocator(): void {
  console.log(
    'locator: one location with all outputs and 10 explanations, 60 observations (aim: 5 ms median, 10 at most, for 100 stations)',
  );
  const warm = benchRequest(100, 60);
  for (let i = 0; i < 300; i++) locate(i % 3 === 0 ? { ...warm, explanations: 0 } : warm);
  let before: { stations: number; time: number } | undefined;
  for (const stations of [20, 100, 500, 2000]) {
    const request = benchRequest(stations, 60);
    const runs = stations > 500 ? 21 : 201;
    const clock = medianMilliseconds(runs, () => locate(request));
    const [time = NaN, without = NaN] = mediansByTurns(runs, [
      () => locate(request),
      () => locate({ ...request, explanations: 0 }),
    ]);
    const growth = before
      ? `, ${(time / before.time).toFixed(1)} times the time for ${stations / before.stations} times the stations`
      : '';
    console.log(
      `  ${String(stations).padStart(5)} stations  ${clock.toFixed(2)} ms median by the clock; of the processor, all threads, ` +
        `${time.toFixed(2)} ms, ${without.toFixed(2)} ms without explanations${growth}`,
    );
    before = { stations, time };
  }
  console.log(
    `  a fixed loop took ${fixedLoopMilliseconds().toFixed(0)} ms meanwhile (80 ms where nothing shares the core)`,
  );
  benchReadings(warm, '100 stations', READ, 30);
  const branching = withTees(warm);
  benchReadings(branching, '100 stations, two tees', READ_OF_BRANCHES, OHMS_OF_BRANCHES);
  benchIntermittent();
  for (const stations of [20, 100]) {
    const request = benchRequest(stations, 60);
    const [time = NaN] = processorTimes(1, () => genericLogEvidence(request));
    console.log(
      `  ${String(stations).padStart(5)} stations  ${time.toFixed(0)} ms by generic elimination, log P(evidence) only`,
    );
  }
}
