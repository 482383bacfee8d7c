import { FUNCTIONS, locate, type LocateRequest } from '#app/locator/index.js';
import { genericLogEvidence } from '../locator/generic-elimination.js';

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

/** Prints the time of one location, all outputs, and how it grows; and of the plain generic solver, log P only. */
export function benchLocator(): void {
  console.log('locator: one location with all outputs and 10 explanations, 60 observations');
  const warm = benchRequest(100, 60);
  for (let i = 0; i < 300; i++) locate(warm);
  let before: { stations: number; time: number } | undefined;
  for (const stations of [20, 100, 500, 2000]) {
    const request = benchRequest(stations, 60);
    const time = medianMilliseconds(stations > 500 ? 21 : 101, () => locate(request));
    const without = medianMilliseconds(stations > 500 ? 21 : 101, () =>
      locate({ ...request, explanations: 0 }),
    );
    const growth = before
      ? `, ${(time / before.time).toFixed(1)} times the time for ${stations / before.stations} times the stations`
      : '';
    console.log(
      `  ${String(stations).padStart(5)} stations  ${time.toFixed(2)} ms median, ` +
        `${without.toFixed(2)} ms without explanations${growth}`,
    );
    before = { stations, time };
  }
  for (const stations of [20, 100]) {
    const request = benchRequest(stations, 60);
    const time = medianMilliseconds(1, () => genericLogEvidence(request));
    console.log(
      `  ${String(stations).padStart(5)} stations  ${time.toFixed(0)} ms by generic elimination, log P(evidence) only`,
    );
  }
}
