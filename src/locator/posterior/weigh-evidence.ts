import { ln } from '../../elementary/ln.js';
import { type Point, waysTo } from '../causes/point.js';
import { hasPoints, quietSite } from '../sweep/quiet-site.js';
import type { SiteModel } from '../sweep/site.js';
import { NEGLIGIBLE } from '../sweep/live-contexts.js';
import {
  logSweptMass,
  type SweptSite,
  sweepSite,
  sweepSiteDown,
  sweepSiteUp,
} from '../sweep/sweep-site.js';
import { sweepUp } from '../sweep/sweep-trunk.js';
import { type Quietness, quietness } from './quietness.js';

/** What the sweeps make of the evidence, over all worlds and over the quiet ones. */
export interface WeighedEvidence {
  readonly swept: SweptSite;
  /** Null where nothing was complained of. */
  readonly quietModel: SiteModel | null;
  /** By trunk, the evidence of the quiet worlds at its port; null there too. */
  readonly quietEvidence: readonly Float64Array[] | null;
  /** Null there too, and where no world is quiet, or so little of the evidence is that it changes no digit. */
  readonly quiet: SweptSite | null;
  readonly quietness: Quietness;
}

const LOG_NEGLIGIBLE = ln(NEGLIGIBLE);

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
      quietEvidence: null,
      quiet: null,
      quietness: quietness(logEvidence, logEvidence, 1),
    };
  const quietModel = quietSite(site);
  const up = sweepSiteUp(quietModel);
  const logQuiet = up?.masses.logEvidence ?? -Infinity;
  return {
    swept,
    quietModel,
    quietEvidence: quietModel.trunks.map(
      (trunk, t) => (up?.sweeps[t] ?? sweepUp(trunk)).port.logEvidence,
    ),
    quiet: up && logQuiet - logEvidence > LOG_NEGLIGIBLE ? sweepSiteDown(up) : null,
    quietness: quietness(logQuiet, logEvidence, site.falseAlarmRatio),
  };
}

/** The same of one outcome of many: of the quiet worlds only what they weigh. */
export function weighOutcome(
  site: SiteModel,
  quietModel: SiteModel,
  points: readonly Point[],
): { swept: SweptSite; logQuiet: number } | null {
  const swept = sweepTo(points, site);
  return swept && { swept, logQuiet: logSweptMass(quietModel) };
}
