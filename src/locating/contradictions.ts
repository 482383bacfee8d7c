import type { AgainstTheRest } from '../locator/index.js';
import { type Heard, informantOf, saidKey } from '../reports/observation.js';
import { sittingsOf } from './sittings.js';

/** What was said of one function in one room that does not fit. */
export interface Contradiction {
  /** Of one person: it hardly goes with the rest. Of several: they say different things. */
  said: Heard[];
  /** P(the one word | all else); null where several speak. */
  given: number | null;
}

/**
 * Who contradicts whom: first those who say of one room at one time that it was heard and that it was silent, then what goes
 * badly with all the rest.
 *
 * @param used in the order of the request's observations
 */
export function contradictions(
  used: readonly Heard[],
  against: readonly AgainstTheRest[],
): Contradiction[] {
  const sittings = sittingsOf(used);
  const together = new Map<string, Heard[]>();
  for (const one of used) {
    const key = `${sittings.get(one.id)} ${saidKey(one)}`;
    together.set(key, [...(together.get(key) ?? []), one]);
  }
  const opposed = [...together.values()].filter(isOpposed);
  const told = new Set(opposed.flat());
  const alone = against.flatMap(({ observation, given }) => {
    const one = used[observation];
    return one === undefined || told.has(one) ? [] : [{ said: [one], given }];
  });
  return [...opposed.map((said) => ({ said, given: null })), ...alone];
}

function isOpposed(said: readonly Heard[]): boolean {
  const people = new Set(said.map(informantOf));
  const outcomes = new Set(said.map(({ outcome }) => outcome));
  return people.size > 1 && outcomes.has('works') && outcomes.has('fails');
}
