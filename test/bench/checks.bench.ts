import {
  checksOfBoth,
  locate,
  type LocateRequest,
  officeChecks,
  surprise,
  technicianChecks,
} from '#app/locator/index.js';
import { seededRandom } from '#app/statistics/seeded-random.js';

const ROOMS = 40;

/** One trunk of 40 rooms, told about by a caller with a name. */
function fortyRooms(outcomeOf: (room: number) => 'works' | 'fails'): LocateRequest {
  const nodes = Array.from({ length: ROOMS }, (_, n) => {
    return { id: `A${n + 1}`, kind: 'station' as const, cableMetres: 8 + ((n * 7) % 13) };
  });
  const asked = nodes.filter((_, n) => n % 3 === 0);
  return {
    trunks: [{ id: 'A', nodes }],
    exposureDays: 180,
    observations: asked.map(({ id }, i) => ({
      trunk: 'A',
      node: id,
      function: 'announcement' as const,
      outcome: outcomeOf(i),
      informant: { id: 'caller', kind: 'office' as const },
    })),
  };
}

function medianMilliseconds(runs: number, work: () => unknown): number {
  work();
  const times = Array.from({ length: runs }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[Math.floor(runs / 2)] ?? NaN;
}

/** Prints what checks and surprise cost beside one location of the same site. */
export function benchChecks(print: (line: string) => void): void {
  const usual = fortyRooms((i) => (i < 8 ? 'works' : 'fails'));
  const odd = fortyRooms((i) => (i % 2 === 0 ? 'works' : 'fails'));
  const one = medianMilliseconds(15, () => locate(usual));
  print(
    `checks and surprise: 40 rooms, 14 told by one caller; one location takes ${one.toFixed(1)} ms`,
  );
  const line = (what: string, time: number) =>
    print(
      `  ${what.padEnd(42)} ${time.toFixed(0).padStart(5)} ms, ${(time / one).toFixed(0)} locations`,
    );
  line(
    'three checks for the office, together',
    medianMilliseconds(5, () => officeChecks({ request: usual })),
  );
  line(
    'every check of a technician',
    medianMilliseconds(5, () => technicianChecks({ request: usual })),
  );
  line(
    'checks of both, by what they tell of causes',
    medianMilliseconds(5, () => checksOfBoth({ request: usual }, 2)),
  );
  line(
    'surprise, an ordinary ticket',
    medianMilliseconds(5, () => surprise(usual, seededRandom(26))),
  );
  line(
    'surprise, every other room told silent',
    medianMilliseconds(3, () => surprise(odd, seededRandom(26))),
  );
}
