import { comparePlaces, sortLargestFirst } from '../posterior/order.js';
import { refineResistiveJoint } from '../electrical/refine-resistive-joint.js';
import { ladderOf } from './nominal-volts.js';
import type { Electrical, LocateRequest, SupplyVolts } from '../request/locate-request.js';
import type { SiteModel } from '../sweep/site.js';
import type { TrunkModel } from '../sweep/trunk-model.js';
import type { ResistiveJoints } from './joint-answer.js';
import { jointAssumptions, IN_PLAY, MOST_CANDIDATES } from './joint-assumptions.js';
import { type JointChance, type JointPrior, JointPriors } from './joint-prior.js';

const COMPONENTS = ['junction-out', 'cable', 'junction-in'] as const;

/**
 * The bad joints that the voltages read on each trunk tell apart (fault model, section 6): the ladder is solved with a
 * series resistance of unknown size at each candidate, and compared with all readings under what they share. Only for
 * trunks whose volts were read, and where the sweep finds a bad joint in play.
 *
 * The candidates' chances relative to each other are from everything but those volts, which the ladder weighs anew; how
 * much they cover together is from the sweep, which has a chance for a dead supply, too.
 *
 * @param logEvidence of each trunk, as swept
 * @param logTotal of the whole site
 */
export function resistiveJoints(
  request: LocateRequest,
  site: SiteModel,
  logEvidence: readonly Float64Array[],
  logTotal: number,
): ResistiveJoints[] {
  return site.trunks.flatMap((model, t) => {
    const { electrical } = request;
    if (!electrical || !model.readings?.volts.some((volts) => volts !== null)) return [];
    const priors = new JointPriors(site, t, logEvidence, model, logTotal);
    const spans = priors
      .spans()
      .sort((a, b) => b.before - a.before || a.node - b.node)
      .slice(0, MOST_CANDIDATES);
    const inPlay = spans.reduce((sum, { swept }) => sum + swept, 0);
    if (inPlay < IN_PLAY) return [];
    return [refine(request, { celsius: 20, ...electrical }, model, spans, priors.noJoint())];
  });
}

function refine(
  request: LocateRequest,
  electrical: Required<Electrical>,
  { tree }: TrunkModel,
  spans: readonly JointPrior[],
  noJoint: JointChance,
): ResistiveJoints {
  const readings = (request.readings ?? []).filter(
    (reading): reading is SupplyVolts =>
      reading.kind === 'supply-volts' && reading.trunk === tree.id,
  );
  const all: { node: number | null; before: number; swept: number }[] = [
    { node: null, ...noJoint },
    ...spans,
  ];
  const before = all.reduce((sum, chance) => sum + chance.before, 0);
  const covered = all.reduce((sum, chance) => sum + chance.swept, 0);
  const asked = {
    trunk: ladderOf(tree, electrical),
    candidates: all.map((chance) => {
      return { node: chance.node, weight: (chance.before / before) * Math.min(1, covered) };
    }),
    readings: readings.map(({ node, volts, uncertaintyVolts }) => {
      return { node: tree.nodeIds.indexOf(node), volts, uncertaintyVolts };
    }),
    ...jointAssumptions(electrical.sourceVolts),
  };
  const { candidates, uncovered } = refineResistiveJoint(asked);
  const found = candidates.slice(1).flatMap(({ probability, ohms }, i) => {
    const { node = 0, shares = [] } = spans[i] ?? {};
    const from = tree.nodeIds[tree.parent[node] ?? -1] ?? null;
    const place = { kind: 'span', trunk: tree.id, from, to: tree.nodeIds[node] ?? '' } as const;
    return COMPONENTS.flatMap((component, part) => {
      const share = shares[part] ?? 0;
      return ohms && share > 0
        ? [{ place, component, probability: probability * share, ohms }]
        : [];
    });
  });
  return {
    trunk: tree.id,
    candidates: sortLargestFirst(
      found,
      ({ probability }) => probability,
      (a, b) =>
        comparePlaces(a.place, b.place) ||
        COMPONENTS.indexOf(a.component) - COMPONENTS.indexOf(b.component),
    ),
    noJoint: candidates[0]?.probability ?? 0,
    notCovered: uncovered,
  };
}
