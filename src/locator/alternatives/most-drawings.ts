import { contextCount, tableSize } from '../sweep/contexts.js';
import type { SiteModel } from '../sweep/site.js';

/** Tables that the sweeps over the drawing as sent and all others may fill. Of 5,000 rooms, told of in many ways, no other is weighed. */
const MOST_TABLES = 55_000;

/** The same with what continuity and loop readings tell apart in each. */
const MOST_LABELLED_TABLES = 105_000;

/** How many alternatives of each trunk can be weighed within that; the rest count with the drawing. */
export function mostDrawings({ trunks }: SiteModel): number {
  let tables = 0;
  let labelled = 0;
  for (const { plan, space, labels } of trunks)
    plan.nodeFlags.forEach((flags, n) => {
      const own = tableSize(space.count) * contextCount(plan.groups, flags);
      tables += own;
      labelled += own * (labels?.spans[n]?.labels ?? 1);
    });
  const others = Math.min(MOST_TABLES / tables, MOST_LABELLED_TABLES / labelled) - 1;
  return Math.max(0, Math.floor(others / trunks.length));
}
