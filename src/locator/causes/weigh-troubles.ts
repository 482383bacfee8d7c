import { weighEvidence, type WeighedEvidence } from '../posterior/weigh-evidence.js';
import type { SiteModel } from '../sweep/site.js';
import type { Point } from './point.js';
import type { Trouble } from './trouble-answer.js';
import { type Accounts, troublesOf } from './troubles.js';

/** What the evidence says of a site, and of the causes of what is missed there. */
export interface WeighedTroubles {
  readonly site: SiteModel;
  readonly points: readonly Point[];
  readonly weighed: WeighedEvidence;
  /** In the order of the points. */
  readonly troubles: readonly Trouble[];
  readonly accounts: Accounts;
}

/** Null where the evidence has probability 0. */
export function weighTroubles(site: SiteModel, points: readonly Point[]): WeighedTroubles | null {
  const weighed = weighEvidence(site, points);
  if (!weighed) return null;
  return { site, points, weighed, ...troublesOf(weighed.swept, points, weighed.quietness.mixing) };
}
