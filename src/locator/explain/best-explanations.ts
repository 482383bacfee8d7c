import { ln } from '../../elementary/ln.js';
import type { SiteMasses } from '../sweep/site.js';
import type { UpwardSweep } from '../sweep/sweep-trunk.js';
import { boundGraph } from './bounds.js';
import { growGraph, growOnlyLikeliest } from './graph.js';
import type { InformativeNode } from './informative-nodes.js';
import { Inside } from './inside.js';
import { chosenStates } from './chosen.js';
import type { LabelledSite } from './local-cases.js';
import type { Field } from './partial.js';
import type { QuietPart } from './quiet-part.js';
import { type FoundAssignment, type LeftOf, search, TIE } from './search.js';
import type { Stage } from './stages.js';
import { WorkLeft, WorkSpent } from './work.js';

/**
 * Of `count` explanations wanted, the last is seldom less probable than all together / (count * THIS_LESS). Where it is,
 * there are few probable ones and the first look was cheap; then it is looked FURTHER, and twice as far each time.
 */
const THIS_LESS = 100;
const FURTHER = 1000;

export interface SearchScope {
  readonly site: LabelledSite;
  readonly informativeNodes: readonly InformativeNode[];
  readonly stages: readonly Stage[];
  readonly sweeps: readonly UpwardSweep[];
  readonly masses: SiteMasses;
  readonly quietPart: QuietPart;
}

interface Group {
  readonly inside: Inside;
  /** log of the prior of the group's most probable mode, and the most that an explanation of the group can have. */
  readonly logPrior: number;
  readonly logMost: number;
  readonly modes: Field['modes'];
}

function headEndGroups({ site, informativeNodes, sweeps, masses }: SearchScope): Group[] {
  const { headEnd } = site;
  return Array.from({ length: headEnd.count }, (_, group) => {
    const shares = [...headEnd.ofMode.keys()]
      .filter((mode) => headEnd.ofMode[mode] === group && (headEnd.share[mode] ?? 0) > 0)
      .map((mode) => ({ mode, log: ln(headEnd.share[mode] ?? 0) }))
      .sort((a, b) => b.log - a.log || a.mode - b.mode);
    const logShare = shares[0]?.log ?? -Infinity;
    return {
      inside: new Inside(site, informativeNodes, sweeps, group),
      logPrior: ln(headEnd.chance[group] ?? 0) + logShare,
      logMost: ln(masses.groups[group] ?? 0) + masses.logEvidence + logShare,
      modes: shares.map(({ mode, log }) => ({ mode, log: log - logShare })),
    };
  });
}

/** Explanations found, whether there are no others at all, and whether the work allowed ended before they were all found. */
export interface Best {
  readonly found: readonly FoundAssignment[];
  readonly all: boolean;
  readonly endedEarly: boolean;
}

/**
 * Entries of tables that may be looked at for one answer; each node takes some of them, as it takes time elsewhere. Rows of 2,000 rooms
 * take up to 5 million of the 20 that are left to them; of 5,000 rooms 60 told of take 4 of 5, and 20 told of 18: one is listed then.
 */
const MOST_WORK = 3e7;
const WORK_OF_A_NODE = 5000;
/** And for one probable explanation, where none was found with these: of 5,000 rooms in a row with 20 told of it takes more than half. */
const WORK_FOR_ONE = 1e7;

/**
 * The most probable explanations (fault model, section 5), exactly: looks among those of at least some probability,
 * which the sums of the sweeps allow to tell beforehand state by state; if these are too few, among more. Where this takes
 * too much work, those that were found until then, which are the most probable ones; where none was, a probable one, or none, where even
 * that is too much.
 */
export function bestExplanations(scope: SearchScope, count: number): Best {
  const groups = headEndGroups(scope);
  const most = Math.max(...groups.map(({ logMost }) => logMost));
  if (most === -Infinity) return { found: [], all: true, endedEarly: false };
  let logLeast = most - ln(count * THIS_LESS);
  let step = ln(FURTHER);
  const nodes = scope.site.trunks.reduce((sum, { tree }) => sum + tree.count, 0);
  const work = new WorkLeft(MOST_WORK - nodes * WORK_OF_A_NODE);
  let last: readonly FoundAssignment[] = [];
  for (;;) {
    const looked = look(scope, groups, count, logLeast, work);
    if (!looked.isWhole) {
      const found = looked.found.length > last.length ? looked.found : last;
      return {
        found: found.length > 0 ? found : oneOf(scope, groups),
        all: false,
        endedEarly: true,
      };
    }
    const { found, cut } = looked;
    // What κ took from those found may make room for others that had too little before it.
    const logLast = found[count - 1]?.log ?? -Infinity;
    if (logLast >= logLeast || !cut)
      return { found, all: !cut && found.length < count, endedEarly: false };
    last = found;
    if (logLast > -Infinity) logLeast = logLast - 2 * TIE;
    else {
      logLeast -= step;
      step *= 2;
    }
  }
}

interface Look {
  readonly found: readonly FoundAssignment[];
  /** Whether there are others of less than `logLeast`. */
  readonly cut: boolean;
  /** Whether the work was enough. */
  readonly isWhole: boolean;
}

/** All explanations of at least exp(logLeast), up to `count`. */
function look(
  scope: SearchScope,
  groups: readonly Group[],
  count: number,
  logLeast: number,
  work: WorkLeft,
): Look {
  const { site, informativeNodes, stages } = scope;
  let cut = false;
  try {
    const fields = groups.flatMap(({ inside, logPrior, logMost, modes }) => {
      cut ||= logMost < logLeast && logMost > -Infinity;
      if (logMost < logLeast || logMost === -Infinity) return [];
      const graph = growGraph({ site, informativeNodes, inside, work }, logPrior, logLeast);
      cut ||= graph.cut;
      return [
        { logPrior, field: { graph, bounds: boundGraph(informativeNodes, graph, work), modes } },
      ];
    });
    const least = cut ? logLeast : -Infinity;
    return { ...search(stages, fields, count, least, work, leftOf(scope)), cut };
  } catch (error) {
    if (error instanceof WorkSpent) return { found: [], cut, isWhole: false };
    throw error;
  }
}

function leftOf({ informativeNodes, stages, quietPart }: SearchScope): LeftOf {
  if (quietPart.taken === 0) return () => 1;
  return (whole) => quietPart.leftOf(chosenStates(informativeNodes, stages, whole));
}

/** One explanation of the likeliest head-end group: from the top down, at each informative node the likeliest state below. */
function oneOf(scope: SearchScope, groups: readonly Group[]): readonly FoundAssignment[] {
  const { site, informativeNodes, stages } = scope;
  const group = groups.reduce((best, one) => (one.logMost > best.logMost ? one : best));
  const { inside, logPrior, modes } = group;
  const work = new WorkLeft(WORK_FOR_ONE);
  try {
    const graph = growOnlyLikeliest({ site, informativeNodes, inside, work }, logPrior);
    const field = { graph, bounds: boundGraph(informativeNodes, graph, work), modes };
    return search(stages, [{ logPrior, field }], 1, -Infinity, work, leftOf(scope)).found.slice(
      0,
      1,
    );
  } catch (error) {
    if (error instanceof WorkSpent) return [];
    throw error;
  }
}
