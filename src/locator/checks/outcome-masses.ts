import { exp } from '../../elementary/exp.js';
import { type CauseMasses, causeMasses, type CausesAsked } from '../causes/cause-masses.js';
import { waysTo } from '../causes/point.js';
import { quietness } from '../posterior/quietness.js';
import { type WeighedEvidence, weighOutcome } from '../posterior/weigh-evidence.js';
import { quietSite } from '../sweep/quiet-site.js';
import type { SiteModel } from '../sweep/site.js';
import {
  logSweptMassAgain,
  type SpareSweeps,
  sweepSiteAgain,
  type SweptStations,
} from '../sweep/sweep-site.js';

/** Masses of some worlds, as shares of those of the evidence before any check, quiet worlds weighing less. */
export interface OutcomeMasses {
  readonly whole: number;
  /** By trouble. */
  readonly causes: readonly CauseMasses[];
}

/** Sweeps what is known before a check again, once for each site that the outcomes of one are made of. */
export class OutcomeSweeps {
  private readonly ways = new Map<number, Uint8Array>();
  private readonly spare: SpareSweeps = new Map();
  private readonly spareQuiet: SpareSweeps = new Map();
  /** Of all that is known before. */
  readonly before: OutcomeMasses;

  constructor(
    private readonly weighed: WeighedEvidence,
    private readonly troubles: readonly CausesAsked[],
  ) {
    const points = troubles.map(({ point }) => point);
    const ways = waysTo(points, weighed.swept.site);
    for (const { trunk } of points) this.ways.set(trunk, ways[trunk] ?? new Uint8Array());
    this.before = this.given((site) => site) ?? { whole: 0, causes: [] };
  }

  /** What some worlds of it have, which `change` leaves of the site; null where that is nothing. */
  given(change: (site: SiteModel) => SiteModel): OutcomeMasses | null {
    const { swept, quiet } = this.weighed;
    const again = sweepSiteAgain(swept, change(swept.site), this.ways, this.spare, true);
    if (!again) return null;
    const logQuiet = quiet
      ? logSweptMassAgain(quiet, change(quiet.site), this.spareQuiet)
      : -Infinity;
    return this.massesOf(again, logQuiet);
  }

  /** The same of another site, with something told that takes more states than this one has. */
  of(other: SiteModel): OutcomeMasses | null {
    const points = this.troubles.map(({ point }) => point);
    const weighed = weighOutcome(other, quietSite(other), points);
    return weighed && this.massesOf(weighed.swept, weighed.logQuiet);
  }

  private massesOf(swept: SweptStations, logQuiet: number): OutcomeMasses {
    const { site, masses } = this.weighed.swept;
    const { logEvidence } = swept.masses;
    const { taken, mixing } = quietness(logQuiet, logEvidence, site.falseAlarmRatio);
    const share = exp(logEvidence + swept.site.logSeen - masses.logEvidence - site.logSeen);
    const causes = causeMasses(swept, this.troubles, taken);
    return addMasses([{ whole: 1 / mixing.weight, causes }], [share]);
  }
}

/** Sums of masses, each as often as its share; null is nothing. */
export function addMasses(
  all: readonly (OutcomeMasses | null)[],
  shares: readonly number[],
): OutcomeMasses {
  const sum = (of: (one: OutcomeMasses) => number) =>
    all.reduce((total, one, i) => total + (one ? (shares[i] ?? 0) * of(one) : 0), 0);
  const sums = (of: (one: OutcomeMasses) => Float64Array | undefined, size: number) => {
    const total = new Float64Array(size);
    all.forEach((one, i) => {
      const own = one && of(one);
      const share = shares[i] ?? 0;
      for (let c = 0; own && c < size; c++) total[c] = (total[c] ?? 0) + share * (own[c] ?? 0);
    });
    return total;
  };
  return {
    whole: sum(({ whole }) => whole),
    causes: (all[0]?.causes ?? []).map(({ alone, held }, trouble) => ({
      alone: sums(({ causes }) => causes[trouble]?.alone, alone.length),
      short: sum(({ causes }) => causes[trouble]?.short ?? 0),
      held: sums(({ causes }) => causes[trouble]?.held, held.length),
    })),
  };
}
