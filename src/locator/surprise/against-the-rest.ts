/* eslint-disable @typescript-eslint/no-non-null-assertion -- a weight for each statement */
import { sortLargestFirst } from '../posterior/order.js';
import type { SweptSite } from '../sweep/sweep-site.js';
import { weightsWithout } from './weights-without.js';

/** Something told that hardly goes with all the rest. */
export interface AgainstTheRest {
  /** Its place in the request's list. */
  observation: number;
  /** P(it was told so | everything else), less than 0.05. */
  given: number;
}

/** What is less likely than this is told. */
const UNLIKELY = 0.05;

/**
 * Every observation whose outcome was unlikely given all other evidence, the least likely first. Points and rooms that were
 * spoken of stay those of the whole request.
 *
 * @param quiet the same site in quiet worlds; null where there are none, or nothing was complained of
 * @param mix from shares of all worlds and of quiet ones to those of the posterior
 */
export function againstTheRest(
  swept: SweptSite,
  quiet: SweptSite | null,
  mix: (all: number, quiet: number) => number,
): AgainstTheRest[] {
  const found: AgainstTheRest[] = [];
  swept.site.trunks.forEach(({ statements }, trunk) => {
    statements.forEach((heard, node) => {
      heard.forEach((ofOne, v) => {
        if (ofOne.items.every(({ observation }) => observation < 0)) return;
        const all = weightsWithout(swept, trunk, node, v);
        const inQuiet = quiet ? weightsWithout(quiet, trunk, node, v) : null;
        ofOne.items.forEach(({ observation }, s) => {
          const given = 1 / mix(all[s]!, inQuiet?.[s] ?? 0);
          if (observation >= 0 && given < UNLIKELY) found.push({ observation, given });
        });
      });
    });
  });
  return sortLargestFirst(
    found,
    ({ given }) => -given,
    (a, b) => a.observation - b.observation,
  );
}
