import { describe, expect, it } from '@jest/globals';
import { readFileSync } from 'node:fs';
import { accountNumbers, troubleNumbers } from './cause-numbers.js';
import type { Rates } from './oracle/request.js';
import { locate, type LocateRequest, type LocateResult } from '#app/locator/index.js';

/** Requests with answers that were made elsewhere, by enumeration. */
interface Case {
  name: string;
  request: LocateRequest;
  expected: {
    logEvidence: number;
    quiet: number;
    components: { place: string; part: string | null; modes: Record<string, number> }[];
    places: Record<string, number>;
    works: Record<string, number>;
    accounts: Record<string, number>;
    troubles: { point: string; causes: Rates; within: Rates }[];
  };
}

const CASES = JSON.parse(
  readFileSync(new URL('../../test/locator/cases-2.json', import.meta.url), 'utf8'),
) as Case[];

function nameOf({ place }: LocateResult['places'][number]): string {
  if (place.kind === 'head-end') return 'head-end';
  if (place.kind === 'port') return `port ${place.trunk}`;
  return `${place.kind} ${place.trunk}/${place.kind === 'span' ? place.to : place.node}`;
}

/** All numbers of an answer by name; what is 0 may be left out on either side. */
function figures(entries: [string, number][]): Record<string, number> {
  return Object.fromEntries(entries.filter(([, value]) => value !== 0));
}

function largestDifference(a: Record<string, number>, b: Record<string, number>): number {
  const names = [...new Set([...Object.keys(a), ...Object.keys(b)])];
  return Math.max(0, ...names.map((name) => Math.abs((a[name] ?? 0) - (b[name] ?? 0))));
}

describe('the locator gives the answers of the worked requests', () => {
  it.each(CASES)('$name', ({ request, expected }) => {
    const answer = locate(request);
    expect(answer.logEvidence).toBeCloseTo(expected.logEvidence, 9);
    expect(answer.quiet).toBeCloseTo(expected.quiet, 9);
    const places = figures(answer.places.map((one) => [nameOf(one), one.probability]));
    expect(largestDifference(places, expected.places)).toBeLessThan(1e-9);
    const modes = figures(
      answer.places.flatMap((one) =>
        one.components.flatMap(({ component, modes: chances }) =>
          Object.entries(chances).map(([mode, chance]): [string, number] => [
            `${nameOf(one)} ${one.place.kind === 'span' ? component : '-'} ${mode}`,
            chance,
          ]),
        ),
      ),
    );
    const wanted = figures(
      expected.components.flatMap(({ place, part, modes: chances }) =>
        Object.entries(chances).map(([mode, chance]): [string, number] => [
          `${place} ${place.startsWith('span') ? part : '-'} ${mode}`,
          chance,
        ]),
      ),
    );
    expect(largestDifference(modes, wanted)).toBeLessThan(1e-9);
    const works = figures(
      answer.predictions.map((one) => [`${one.trunk}/${one.node}|${one.function}`, one.works]),
    );
    expect(largestDifference(works, expected.works)).toBeLessThan(1e-9);
    expect(largestDifference(accountNumbers(answer), expected.accounts)).toBeLessThan(1e-9);
    const troubles = expected.troubles.flatMap(({ point, causes, within }) => [
      ...Object.entries(causes).map(([cause, chance]) => [`${point} | ${cause}`, chance] as const),
      ...Object.entries(within).map(
        ([place, chance]) => [`${point} within ${place}`, chance] as const,
      ),
    ]);
    const found = troubleNumbers(answer.troubles);
    expect(largestDifference(found, Object.fromEntries(troubles))).toBeLessThan(1e-9);
  });
});
