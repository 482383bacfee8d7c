import type { NodeExpectation, TrunkExpectation } from '../../plan/expected-faults.js';
import { modeChances } from '../../plan/mode-chances.js';
import { PORT_MODES } from '../../plan/modes.js';
import type { RateTables } from '../../plan/rates.js';
import { type LabelPlan, labelPlan } from '../readings/label-plan.js';
import type { TrunkReadings } from '../readings/trunk-readings.js';
import type { ContextPlan } from './contexts.js';
import type { HeadEndGroups } from './head-end-groups.js';
import { type FeltFeed, nodeLikelihood, type NodeLikelihood } from './node-likelihood.js';
import { type SpanChances, spanChances } from './span-chances.js';
import { EFFECTS, EFFECTS_APART, type EffectClasses } from './states.js';
import { type StationChances, stationChances } from './station-classes.js';
import type { TrunkTree } from './trunk-tree.js';
import type { ByCondition, ConfusionFlag, Voice } from './voices.js';

/** Everything that the two sweeps of one trunk need: priors, likelihoods, contexts. */
export interface TrunkModel {
  readonly tree: TrunkTree;
  readonly plan: ContextPlan;
  readonly flags: readonly ConfusionFlag[];
  readonly junctionOut: readonly SpanChances[];
  readonly cable: readonly SpanChances[];
  readonly junctionIn: readonly SpanChances[];
  /** Null at a junction box. */
  readonly station: readonly (StationChances | null)[];
  readonly voices: readonly (readonly Voice[])[];
  /** As trunkLikelihood gives it. */
  readonly likelihood: readonly (NodeLikelihood | null)[];
  /** Null without readings. Volts are evidence of a node's feed, beside its likelihood. */
  readonly readings: TrunkReadings | null;
  /** What continuity and loop readings ask of the components; null without any. */
  readonly labels: LabelPlan | null;
  /** Which modes of a component act alike. */
  readonly effects: EffectClasses;
  readonly portOk: number;
  readonly portNoOutput: number;
  /** By what the modes of one class of a component share its posterior: its rates, or the faults expected of it. */
  readonly weights: readonly NodeWeights[];
  readonly portWeights: RateTables['port'];
}

export type NodeWeights = Omit<NodeExpectation, 'id'>;

/** Remembers by one key: most nodes share an exposure, most unmentioned stations share their evidence. */
function remembered<K, V>(make: (key: K) => V): (key: K) => V {
  const known = new Map<K, V>();
  return (key) => {
    const found = known.get(key);
    if (found !== undefined) return found;
    const made = make(key);
    known.set(key, made);
    return made;
  };
}

/** Voices that make everything equally likely have one text. Statements with the same errors share their likelihoods. */
function voiceKeys(): (voice: Voice) => string {
  const numbers = new Map<ByCondition, number>();
  const numberOf = (likelihood: ByCondition) => {
    const number = numbers.get(likelihood) ?? numbers.size;
    numbers.set(likelihood, number);
    return number;
  };
  return ({ flag, confused, statements }) => {
    const said = statements.map((one) => `${one.func} ${numberOf(one.likelihood)} ${one.sitting}`);
    return `${flag} ${confused} ${said.join()}`;
  };
}

/** The classes of a station's mode that it can be in, as bits. */
function possibleClasses(station: StationChances | null | undefined): number {
  let set = 1;
  station?.classes.forEach((chance, k) => (set |= chance > 0 ? 1 << k : 0));
  return set;
}

/** By node; null at a node without evidence. */
export function trunkLikelihood(
  voices: readonly (readonly Voice[])[],
  stations: readonly (StationChances | null)[],
  plan: ContextPlan,
  headEnd: HeadEndGroups,
  felt?: FeltFeed,
): (NodeLikelihood | null)[] {
  const keyOf = voiceKeys();
  const known = new Map<string, NodeLikelihood>();
  return voices.map((heard, n) => {
    if (heard.length === 0) return null;
    const flags = plan.nodeFlags[n] ?? [];
    // Many stations have the same said or not said of them, and so one table.
    const possible = possibleClasses(stations[n]);
    const key = `${heard.map(keyOf).join('; ')} | ${flags.join()} | ${possible}`;
    const likelihood =
      known.get(key) ?? nodeLikelihood(heard, headEnd.disables, flags, felt, possible);
    known.set(key, likelihood);
    return likelihood;
  });
}

/** Tables whose exposure (and metres) are in them already: what spanChances and stationChances multiply them by. */
const AS_EXPECTED = 1;

function spanPriors(
  tree: TrunkTree,
  rates: RateTables,
  expected: ReadonlyMap<string, NodeExpectation>,
  effects: EffectClasses,
): Pick<TrunkModel, 'junctionOut' | 'cable' | 'junctionIn'> {
  const junctionOf = remembered((t: number) => spanChances(rates.junction, 1, t, effects));
  // Cables of one length and exposure share their chances, and with these what is made of them.
  const cablesOf = remembered((t: number) =>
    remembered((metres: number) => spanChances(rates.cablePerMetre, metres, t, effects)),
  );
  const prior = (n: number, component: 'junctionOut' | 'cable' | 'junctionIn') => {
    const own = expected.get(tree.nodeIds[n] ?? '')?.[component];
    const years = tree.years[n] ?? 0;
    if (own) return spanChances(own, AS_EXPECTED, AS_EXPECTED, effects);
    if (component !== 'cable') return junctionOf(years);
    return cablesOf(years)(tree.cableMetres[n] ?? 0);
  };
  return {
    junctionOut: tree.nodeIds.map((_, n) => prior(n, 'junctionOut')),
    cable: tree.nodeIds.map((_, n) => prior(n, 'cable')),
    junctionIn: tree.nodeIds.map((_, n) => prior(n, 'junctionIn')),
  };
}

export function trunkModel(
  tree: TrunkTree,
  voices: readonly (readonly Voice[])[],
  plan: ContextPlan,
  flags: readonly ConfusionFlag[],
  given: {
    rates: RateTables;
    years: number;
    headEnd: HeadEndGroups;
    expected?: TrunkExpectation;
    readings: TrunkReadings | null;
  },
): TrunkModel {
  const { rates, years, headEnd, expected, readings } = given;
  const effects = readings?.stretches.length ? EFFECTS_APART : EFFECTS;
  const own = new Map(expected?.nodes.map((node) => [node.id, node]));
  const stationOf = remembered((t: number) => stationChances(rates.station, t));
  const byRates: NodeWeights = {
    junctionOut: rates.junction,
    cable: rates.cablePerMetre,
    junctionIn: rates.junction,
    station: rates.station,
  };
  const portWeights = expected?.port ?? rates.port;
  const port = modeChances(
    PORT_MODES.map((mode) => portWeights[mode] ?? 0),
    expected ? AS_EXPECTED : years,
  );
  const priors = {
    tree,
    effects,
    ...spanPriors(tree, rates, own, effects),
    station: tree.nodeIds.map((id, n) => {
      if (!tree.isStation[n]) return null;
      const table = own.get(id)?.station;
      return table ? stationChances(table, AS_EXPECTED) : stationOf(tree.years[n] ?? 0);
    }),
  };
  const hasLabels = readings && readings.stretches.length + readings.loops.length > 0;
  return {
    ...priors,
    plan,
    flags,
    readings,
    labels: hasLabels ? labelPlan(priors, readings) : null,
    voices,
    likelihood: trunkLikelihood(voices, priors.station, plan, headEnd),
    portOk: port.ok,
    portNoOutput: port.modes[0] ?? 0,
    weights: tree.nodeIds.map((id) => own.get(id) ?? byRates),
    portWeights,
  };
}
