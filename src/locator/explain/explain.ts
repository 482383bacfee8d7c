/* eslint-disable @typescript-eslint/no-non-null-assertion -- loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { exp } from '../../elementary/exp.js';
import type { Explanation, TrunkExplanation } from '../posterior/locate-result.js';
import { ALL_CORES } from '../../plan/cores.js';
import { coresIn } from '../../plan/plan-tables.js';
import type { SiteModel } from '../sweep/site.js';
import type { SweptSite } from '../sweep/sweep-site.js';
import { bestExplanations } from './best-explanations.js';
import { type Chosen, chosenStates } from './chosen.js';
import { type InformativeNode, listInformativeNodes, TooManyLabels } from './informative-nodes.js';
import { LikelyPlaces } from './likely-places.js';
import { QuietPart } from './quiet-part.js';
import { CutLabels } from './cut-labels.js';
import { feedOf, type LabelledSite, viewOf } from './local-cases.js';
import { WEAK_FEED } from './run-effects.js';
import { type FoundAssignment, TIE } from './search.js';
import { planStages } from './stages.js';

interface Told extends FoundAssignment {
  readonly chosen: Chosen;
}

/** Head-end first, then the states in the order of the informative nodes, which goes by ids. */
function compareStates(a: Told, b: Told): number {
  if (a.headEnd !== b.headEnd) return a.headEnd - b.headEnd;
  const h = a.chosen.states.findIndex(({ state }, i) => state !== b.chosen.states[i]!.state);
  return h < 0 ? 0 : a.chosen.states[h]!.state - b.chosen.states[h]!.state;
}

/** Most probable first; those that are equal but for rounding go by their states. */
function inOrder(list: Told[]): Told[] {
  const sorted = list.sort((a, b) => b.log - a.log);
  const ordered: Told[] = [];
  while (ordered.length < sorted.length) {
    let end = ordered.length + 1;
    while (end < sorted.length && sorted[end - 1]!.log - sorted[end]!.log < TIE) end++;
    ordered.push(...sorted.slice(ordered.length, end).sort(compareStates));
  }
  return ordered;
}

/** Nodes' and ports' states in all explanations of an answer together: some megabytes. */
const MOST_STATES_TOLD = 50_000;

/** The informative nodes in the order in which they are told: nodes of a trunk from the top down. */
function tellingOrder(informativeNodes: readonly InformativeNode[]): number[] {
  return [...informativeNodes.keys()].sort(
    (a, b) => informativeNodes[a]!.node - informativeNodes[b]!.node,
  );
}

function trunkExplanations(
  site: SiteModel,
  informativeNodes: readonly InformativeNode[],
  order: readonly number[],
  { states }: Chosen,
): TrunkExplanation[] {
  const { plan } = site.system;
  const trunks: TrunkExplanation[] = site.trunks.map(({ tree }) => ({
    trunk: tree.id,
    port: 'ok',
    nodes: [],
  }));
  for (const h of order) {
    const informative = informativeNodes[h]!;
    const { state } = states[h]!;
    const trunk = trunks[informative.trunk];
    if (informative.kind === 'port' && state > 0) trunk!.port = plan.portModes[state - 1]!;
    if (informative.kind === 'node')
      trunk!.nodes.push({
        node: site.trunks[informative.trunk]!.tree.nodeIds[informative.node]!,
        feed: coresIn(plan, feedOf(state) & ALL_CORES),
        weak: (feedOf(state) & WEAK_FEED) !== 0,
        view: coresIn(plan, viewOf(state)),
      });
  }
  return trunks;
}

/**
 * The `count` most probable explanations of what is known, and the chance that none of them is true; neither where
 * readings or disconnections overlap so much that there are too many products to sum over.
 *
 * @param logFactor natural logarithm of the evidence's mass after κ, over that before it
 */
export function explain(
  { site, sweeps, masses }: SweptSite,
  logFactor: number,
  count: number,
): Explained | LeftOut {
  try {
    return explainAll({ site, sweeps, masses }, logFactor, count);
  } catch (error) {
    if (error instanceof TooManyLabels) return { explanationsLeftOut: true };
    throw error;
  }
}

/** That there are more products to sum over than an answer has time for. */
interface LeftOut {
  explanationsLeftOut: true;
}

interface Explained {
  explanations: Explanation[];
  uncovered: number;
  /** True where there may be others that belong into the list. */
  explanationsEndedEarly?: true;
}

/** @throws TooManyLabels */
function labelledSite(site: SiteModel): LabelledSite {
  const cuts = site.trunks.map((trunk) => {
    const made = CutLabels.of(trunk);
    if (made === undefined || (made !== null && trunk.labels !== null)) throw new TooManyLabels();
    return made;
  });
  const trunks = site.trunks.map((trunk, t) => {
    const labels = cuts[t]?.plan;
    return labels ? { ...trunk, labels } : trunk;
  });
  const { system, rates, logSeen, headEnd, falseAlarmRatio, flags, identitiesDropped } = site;
  // Written out, as what is read most must be: see trunk-tree.ts.
  const others = { system, rates, logSeen, headEnd, falseAlarmRatio };
  return { trunks, cuts, flags, identitiesDropped, ...others };
}

function explainAll(
  { site: sweptSite, sweeps, masses }: Pick<SweptSite, 'site' | 'sweeps' | 'masses'>,
  logFactor: number,
  count: number,
): Explained {
  const site = labelledSite(sweptSite);
  const informativeNodes = listInformativeNodes(site);
  const quietPart = new QuietPart(site, informativeNodes);
  const stages = planStages(informativeNodes, site.flags);
  const most = Math.max(1, Math.min(count, Math.floor(MOST_STATES_TOLD / informativeNodes.length)));
  const { found, all, endedEarly } = bestExplanations(
    { site, informativeNodes, stages, sweeps, masses, quietPart },
    most,
  );
  const told = found.map(({ log, headEnd, whole }) => ({
    log,
    headEnd,
    whole,
    chosen: chosenStates(informativeNodes, stages, whole),
  }));
  const likely = new LikelyPlaces(site, informativeNodes, quietPart);
  const order = tellingOrder(informativeNodes);
  const explanations = inOrder(told)
    .slice(0, most)
    .map(({ log, headEnd, chosen }) => ({
      probability: exp(log - masses.logEvidence - logFactor),
      headEnd: site.headEnd.modes[headEnd - 1] ?? ('ok' as const),
      trunks: trunkExplanations(site, informativeNodes, order, chosen),
      likely: likely.of(chosen, headEnd),
    }));
  const covered = explanations.reduce((sum, { probability }) => sum + probability, 0);
  return {
    explanations,
    uncovered: all ? 0 : Math.max(0, 1 - covered),
    ...((endedEarly || (most < count && !all)) && { explanationsEndedEarly: true as const }),
  };
}
