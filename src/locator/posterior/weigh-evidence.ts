import { type Point, waysTo } from '../causes/point.js';
import { hasPoints, quietSite } from '../sweep/quiet-site.js';
import type { SiteModel } from '../sweep/site.js';
import { logSweptMass, type SweptSite, sweepSite } from '../sweep/sweep-site.js';
import { type Quietness, quietness } from './quietness.js';

/** What the sweeps make of the evidence, over all worlds and over the quiet ones. */
export interface WeighedEvidence {
  readonly swept: SweptSite;
  /** Null where nothing was complained of. */
  readonly quietModel: SiteModel | null;
  /** Null there too, and where no world is quiet. */
  readonly quiet: SweptSite | null;
  readonly quietness: Quietness;
}

const sweepTo = (points: readonly Point[], site: SiteModel): SweptSite | null => {
  const ways = waysTo(points, site);
  return sweepSite(site, { isAskedFor: (trunk, node) => ways[trunk]?.[node] === 1 });
};

/** Null where the evidence has probability 0. */
export function weighEvidence(site: SiteModel, points: readonly Point[]): WeighedEvidence | null {
  const swept = sweepTo(points, site);
  if (!swept) return null;
  const { logEvidence } = swept.masses;
  if (!hasPoints(site))
    return {
      swept,
      quietModel: null,
      quiet: null,
      quietness: quietness(logEvidence, logEvidence, 1),
    };
  const quietModel = quietSite(site);
  const quiet = sweepSite(quietModel);
  const logQuiet = quiet?.masses.logEvidence ?? -Infinity;
  return {
    swept,
    quietModel,
    quiet,
    quietness: quietness(logQuiet, logEvidence, site.falseAlarmRatio),
  };
}

/** The same of one outcome of many: of the quiet worlds only what they weigh, null where nothing was complained of. */
export function weighOutcome(
  site: SiteModel,
  quietModel: SiteModel | null,
  points: readonly Point[],
): Pick<WeighedEvidence, 'swept' | 'quietness'> | null {
  const swept = sweepTo(points, site);
  if (!swept) return null;
  const { logEvidence } = swept.masses;
  return {
    swept,
    quietness: quietModel
      ? quietness(logSweptMass(quietModel), logEvidence, site.falseAlarmRatio)
      : quietness(logEvidence, logEvidence, 1),
  };
}
