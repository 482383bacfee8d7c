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

/** The same with stretches tried for continuity, some of which overlap, and the loops of two cores read. */
function readAlong(request: LocateRequest): LocateRequest {
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
      tried(null, at(0.5), true),
      tried(at(0.4), at(0.7), false),
      tried(at(0.55), at(0.65), false),
      loop('speech', 30),
      loop('select', 31),
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

/**
 * Prints what one location costs the processor, all outputs, beside a fixed loop, and how it grows; and of the plain generic
 * solver, log P only.
 */
export function benchLocator(): void {
  console.log(
    'locator: one location with all outputs and 10 explanations, 60 observations, milliseconds of the processor (aim: 5, 10 at most, for 100 stations)',
  );
  const warm = benchRequest(100, 60);
  for (let i = 0; i < 300; i++) locate(warm);
  let before: { stations: number; time: number } | undefined;
  for (const stations of [20, 100, 500, 2000]) {
    const request = benchRequest(stations, 60);
    const [time = NaN, without = NaN] = mediansByTurns(stations > 500 ? 21 : 101, [
      () => locate(request),
      () => locate({ ...request, explanations: 0 }),
    ]);
    const growth = before
      ? `, ${(time / before.time).toFixed(1)} times the time for ${stations / before.stations} times the stations`
      : '';
    console.log(
      `  ${String(stations).padStart(5)} stations  ${time.toFixed(2)} ms median, ` +
        `${without.toFixed(2)} ms without explanations${growth}`,
    );
    before = { stations, time };
  }
  console.log(
    `  a fixed loop took ${fixedLoopMilliseconds().toFixed(0)} ms meanwhile (80 ms where nothing shares the core)`,
  );
  const read = readAlong(warm);
  const [plain = NaN, withReadings = NaN] = mediansByTurns(21, [
    () => locate(warm),
    () => locate(read),
  ]);
  console.log(
    `  100 stations with 3 continuity and 2 loop readings  ${withReadings.toFixed(2)} ms, ` +
      `${(withReadings / plain).toFixed(1)} times that without (aim: 5)`,
  );
  benchIntermittent();
  for (const stations of [20, 100]) {
    const request = benchRequest(stations, 60);
    const [time = NaN] = processorTimes(1, () => genericLogEvidence(request));
    console.log(
      `  ${String(stations).padStart(5)} stations  ${time.toFixed(0)} ms by generic elimination, log P(evidence) only`,
    );
  }
}
