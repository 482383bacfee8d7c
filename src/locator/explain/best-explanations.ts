import type { SiteMasses, SiteModel } from '../sweep/site.js';
import type { UpwardSweep } from '../sweep/sweep-trunk.js';
import { boundGraph } from './bounds.js';
import { growGraph } from './graph.js';
import type { Hub } from './hubs.js';
import { Inside } from './inside.js';
import type { Field } from './partial.js';
import { type FoundAssignment, search } from './search.js';
import type { Stage } from './stages.js';

/**
 * Of `count` explanations wanted, the last is seldom less probable than all together / (count * THIS_LESS). Where it is,
 * there are few probable ones and the first look was cheap; then it is looked FURTHER, and twice as far each time.
 */
const THIS_LESS = 100;
const FURTHER = 1000;

export interface SearchScope {
  readonly site: SiteModel;
  readonly hubs: readonly Hub[];
  readonly stages: readonly Stage[];
  readonly sweeps: readonly UpwardSweep[];
  readonly masses: SiteMasses;
}

interface Group {
  readonly inside: Inside;
  /** log of the prior of the group's most probable mode, and the most that an explanation of the group can have. */
  readonly logPrior: number;
  readonly logMost: number;
  readonly modes: Field['modes'];
}

function headEndGroups({ site, hubs, sweeps, masses }: SearchScope): Group[] {
  const { headEnd } = site;
  return Array.from({ length: headEnd.count }, (_, group) => {
    const shares = [...headEnd.ofMode.keys()]
      .filter((mode) => headEnd.ofMode[mode] === group && (headEnd.share[mode] ?? 0) > 0)
      .map((mode) => ({ mode, log: Math.log(headEnd.share[mode] ?? 0) }))
      .sort((a, b) => b.log - a.log || a.mode - b.mode);
    const logShare = shares[0]?.log ?? -Infinity;
    return {
      inside: new Inside(hubs, sweeps, headEnd.count, group),
      logPrior: Math.log(headEnd.chance[group] ?? 0) + logShare,
      logMost: Math.log(masses.groups[group] ?? 0) + masses.logEvidence + logShare,
      modes: shares.map(({ mode, log }) => ({ mode, log: log - logShare })),
    };
  });
}

/** Explanations found, and whether there are no others at all. */
export interface Best {
  readonly found: readonly FoundAssignment[];
  readonly all: boolean;
}

/**
 * The most probable explanations (fault model, section 5), exactly: looks among those of at least some probability,
 * which the sums of the sweeps allow to tell beforehand state by state; if these are too few, among more.
 */
export function bestExplanations(scope: SearchScope, count: number): Best {
  const { site, hubs, stages } = scope;
  const groups = headEndGroups(scope);
  const most = Math.max(...groups.map(({ logMost }) => logMost));
  if (most === -Infinity) return { found: [], all: true };
  let logLeast = most - Math.log(count * THIS_LESS);
  let step = Math.log(FURTHER);
  for (;;) {
    let cut = false;
    const fields = groups.flatMap(({ inside, logPrior, logMost, modes }) => {
      cut ||= logMost < logLeast && logMost > -Infinity;
      if (logMost < logLeast || logMost === -Infinity) return [];
      const graph = growGraph({ site, hubs, inside }, logPrior, logLeast);
      cut ||= graph.cut;
      return [{ logPrior, field: { graph, bounds: boundGraph(hubs, graph), modes } }];
    });
    const found = search(stages, fields, count, cut ? logLeast : -Infinity);
    if (found.length >= count || !cut) return { found, all: !cut && found.length < count };
    logLeast -= step;
    step *= 2;
  }
}
