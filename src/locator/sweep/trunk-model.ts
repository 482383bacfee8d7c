import type { NodeExpectation, TrunkExpectation } from '../../plan/expected-faults.js';
import type { FunctionSet } from '../../plan/functions.js';
import { modeChances } from '../../plan/mode-chances.js';
import { PORT_MODES, SPAN_MODES, STATION_MODES } from '../../plan/modes.js';
import type { RateTables } from '../../plan/rates.js';
import { type LabelPlan, labelPlan } from '../readings/label-plan.js';
import type { TrunkReadings } from '../readings/trunk-readings.js';
import type { ContextPlan } from './contexts.js';
import type { Disconnections } from './disconnections.js';
import type { HeadEndGroups } from './head-end-groups.js';
import { type Looks, seenChances, seenWeights } from './looks.js';
import {
  type FeltFeed,
  nodeLikelihood,
  type NodeLikelihood,
  type Silenced,
} from './node-likelihood.js';
import { type SpanChances, spanChances } from './span-chances.js';
import type { EffectClasses } from './effect-classes.js';
import type { StateSpace } from './state-space.js';
import { type StationChances, stationChances } from './station-classes.js';
import type { TrunkTree } from './trunk-tree.js';
import type { ByCondition, ConfusionFlag, StatementsOfOne } from './statements.js';

/** Everything that the two sweeps of one trunk need: priors, likelihoods, contexts. */
export interface TrunkModel {
  readonly tree: TrunkTree;
  /** By node, as Zones numbers them. */
  readonly zone: Uint16Array;
  /** The states of its points, and by node the way of connecting it in which what the node feeds is off; 0 for none. */
  readonly space: StateSpace;
  readonly cutAt: Uint8Array;
  readonly plan: ContextPlan;
  readonly flags: readonly ConfusionFlag[];
  readonly junctionOut: readonly SpanChances[];
  readonly cable: readonly SpanChances[];
  readonly junctionIn: readonly SpanChances[];
  /** Null at a junction box. */
  readonly station: readonly (StationChances | null)[];
  readonly statements: readonly (readonly StatementsOfOne[])[];
  /** By node: functions that were complained of there with the trunk whole. */
  readonly points: readonly FunctionSet[];
  /** As trunkLikelihood gives it. */
  readonly likelihood: readonly (NodeLikelihood | null)[];
  /** Null without readings. Volts are evidence of a node's feed, beside its likelihood. */
  readonly readings: TrunkReadings | null;
  /** What continuity and loop readings ask of the components; null without any. */
  readonly labels: LabelPlan | null;
  /** Which modes of a component act alike. */
  readonly effects: EffectClasses;
  /** By head-end group: 1 where it takes the supply from the trunk. */
  readonly isPowerless: Uint8Array;
  readonly portOk: number;
  readonly portNoOutput: number;
  /** By what the modes of one class of a component share its posterior: its rates, or the faults expected of it. */
  readonly weights: readonly NodeWeights[];
  readonly portWeights: RateTables['port'];
  /** P(faulty) of a component before anybody looked at it; null where nobody did, and its prior is that. */
  readonly beforeLooks: (n: number, part: SpanPart | 'station') => number | null;
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

/** Informants that make everything equally likely have one text. Statements with the same errors share their likelihoods. */
function keysOfStatements(): (ofOne: StatementsOfOne) => string {
  const numbers = new Map<ByCondition, number>();
  const numberOf = (likelihood: ByCondition) => {
    const number = numbers.get(likelihood) ?? numbers.size;
    numbers.set(likelihood, number);
    return number;
  };
  return ({ flag, confused, items }) => {
    const said = items.map(
      (one) => `${one.func} ${numberOf(one.likelihood)} ${one.sitting} ${one.way}`,
    );
    return `${flag} ${confused} ${said.join()}`;
  };
}

/** The classes of a station's mode that it can be in, as bits. */
export function possibleClasses(station: StationChances | null | undefined): number {
  let set = 1;
  station?.classes.forEach((chance, k) => (set |= chance > 0 ? 1 << k : 0));
  return set;
}

/** By node; null at a node without evidence. */
export function trunkLikelihood(
  {
    statements,
    station,
    plan,
    zone,
    space,
  }: Pick<TrunkModel, 'statements' | 'station' | 'plan' | 'zone' | 'space'>,
  headEnd: HeadEndGroups,
  passing: { felt?: FeltFeed; silenced?: (zone: number) => Silenced } = {},
): (NodeLikelihood | null)[] {
  const keyOf = keysOfStatements();
  const known = new Map<string, NodeLikelihood>();
  return statements.map((heard, n) => {
    if (heard.length === 0) return null;
    const flags = plan.nodeFlags[n] ?? [];
    // Many stations have the same said or not said of them, and so one table.
    const possible = possibleClasses(station[n]);
    const key = `${heard.map(keyOf).join('; ')} | ${flags.join()} | ${possible} | ${zone[n]}`;
    const disables = headEnd.disables[zone[n] ?? 0] ?? [];
    const likelihood =
      known.get(key) ??
      nodeLikelihood(heard, disables, flags, space, {
        felt: passing.felt,
        silenced: passing.silenced?.(zone[n] ?? 0),
        possible,
      });
    known.set(key, likelihood);
    return likelihood;
  });
}

/** Tables whose exposure (and metres) are in them already: what spanChances and stationChances multiply them by. */
const AS_EXPECTED = 1;

function pointsOf(statements: readonly (readonly StatementsOfOne[])[]): FunctionSet[] {
  return statements.map((heard) =>
    heard
      .flatMap(({ items }) => items)
      .reduce((set, { isComplaint, func }) => (isComplaint ? set | (1 << func) : set), 0),
  );
}

const SPAN_PARTS = {
  junctionOut: 'junction-out',
  cable: 'cable',
  junctionIn: 'junction-in',
} as const;
export type SpanPart = keyof typeof SPAN_PARTS;

/** The prior of each component, with what was seen of it, and what its modes are weighed by. */
class Priors {
  private readonly own: ReadonlyMap<string, NodeExpectation>;
  private readonly junctionOf: (years: number) => SpanChances;
  private readonly cablesOf: (years: number) => (metres: number) => SpanChances;
  private readonly stationOf: (years: number) => StationChances;
  private readonly byRates: NodeWeights;

  constructor(
    private readonly tree: TrunkTree,
    rates: RateTables,
    private readonly effects: EffectClasses,
    private readonly looks: Looks,
    expected: TrunkExpectation | undefined,
  ) {
    this.own = new Map(expected?.nodes.map((node) => [node.id, node]));
    this.junctionOf = remembered((t) => spanChances(rates.junction, 1, t, effects));
    // Cables of one length and exposure share their chances, and with these what is made of them.
    this.cablesOf = remembered((t: number) =>
      remembered((metres: number) => spanChances(rates.cablePerMetre, metres, t, effects)),
    );
    this.stationOf = remembered((t) => stationChances(rates.station, t));
    this.byRates = {
      junctionOut: rates.junction,
      cable: rates.cablePerMetre,
      junctionIn: rates.junction,
      station: rates.station,
    };
  }

  /** Before anything was seen. */
  private table(n: number): NodeWeights {
    return this.own.get(this.tree.nodeIds[n] ?? '') ?? this.byRates;
  }

  private seen(n: number, part: SpanPart | 'station') {
    const { id: trunk, nodeIds } = this.tree;
    const node = nodeIds[n] ?? '';
    return part === 'station'
      ? this.looks.seen({ kind: 'station', trunk, node }, 'station', STATION_MODES)
      : this.looks.seen(
          { kind: 'span', trunk, from: null, to: node },
          SPAN_PARTS[part],
          SPAN_MODES,
        );
  }

  span(n: number, part: SpanPart): SpanChances {
    const isOwn = this.own.has(this.tree.nodeIds[n] ?? '');
    const years = isOwn ? AS_EXPECTED : (this.tree.years[n] ?? 0);
    const metres = part === 'cable' && !isOwn ? (this.tree.cableMetres[n] ?? 0) : 1;
    const seen = this.seen(n, part);
    if (isOwn || seen) return spanChances(this.table(n)[part], metres, years, this.effects, seen);
    return part === 'cable' ? this.cablesOf(years)(metres) : this.junctionOf(years);
  }

  station(n: number): StationChances | null {
    if (!this.tree.isStation[n]) return null;
    const isOwn = this.own.has(this.tree.nodeIds[n] ?? '');
    const years = isOwn ? AS_EXPECTED : (this.tree.years[n] ?? 0);
    const seen = this.seen(n, 'station');
    return isOwn || seen
      ? stationChances(this.table(n).station, years, seen)
      : this.stationOf(years);
  }

  beforeLooks(n: number, part: SpanPart | 'station'): number | null {
    if (!this.seen(n, part)) return null;
    const isOwn = this.own.has(this.tree.nodeIds[n] ?? '');
    const years = isOwn ? AS_EXPECTED : (this.tree.years[n] ?? 0);
    const metres = part === 'cable' && !isOwn ? (this.tree.cableMetres[n] ?? 0) : 1;
    const rates = Object.values<number>(this.table(n)[part]).map((rate) => rate * metres);
    return 1 - modeChances(rates, years).ok;
  }

  weights(n: number): NodeWeights {
    let table = this.table(n);
    for (const part of ['junctionOut', 'cable', 'junctionIn'] as const) {
      const seen = this.seen(n, part);
      if (seen) table = { ...table, [part]: seenWeights(table[part], SPAN_MODES, seen) };
    }
    const seen = this.seen(n, 'station');
    return seen && this.tree.isStation[n]
      ? { ...table, station: seenWeights(table.station, STATION_MODES, seen) }
      : table;
  }
}

export function trunkModel(
  tree: TrunkTree,
  statements: readonly (readonly StatementsOfOne[])[],
  plan: ContextPlan,
  flags: readonly ConfusionFlag[],
  given: {
    rates: RateTables;
    years: number;
    headEnd: HeadEndGroups;
    zone: Uint16Array;
    cuts: Disconnections;
    looks: Looks;
    expected?: TrunkExpectation;
    readings: TrunkReadings | null;
  },
): TrunkModel {
  const { rates, years, headEnd, zone, cuts, looks, expected, readings } = given;
  const { space } = cuts;
  const effects = readings?.stretches.length ? space.effectsApart : space.effects;
  const priors = new Priors(tree, rates, effects, looks, expected);
  const portWeights = expected?.port ?? rates.port;
  const port = seenChances(
    PORT_MODES.map((mode) => portWeights[mode] ?? 0),
    expected ? AS_EXPECTED : years,
    looks.seen({ kind: 'port', trunk: tree.id }, 'port', PORT_MODES),
  );
  const nodes = [...tree.nodeIds.keys()];
  const spans = {
    junctionOut: nodes.map((n) => priors.span(n, 'junctionOut')),
    cable: nodes.map((n) => priors.span(n, 'cable')),
    junctionIn: nodes.map((n) => priors.span(n, 'junctionIn')),
    station: nodes.map((n) => priors.station(n)),
  };
  const hasLabels = readings && readings.stretches.length + readings.loops.length > 0;
  const cutAt = Uint8Array.from(nodes, (n) => cuts.nodes.indexOf(n) + 1);
  return {
    tree,
    zone,
    space,
    cutAt,
    effects,
    ...spans,
    plan,
    flags,
    readings,
    labels: hasLabels ? labelPlan({ tree, effects, ...spans }, readings) : null,
    statements,
    points: pointsOf(statements),
    likelihood: trunkLikelihood({ statements, plan, zone, space, station: spans.station }, headEnd),
    isPowerless: headEnd.isPowerless,
    portOk: port.ok,
    portNoOutput: port.modes[0] ?? 0,
    weights: nodes.map((n) => priors.weights(n)),
    portWeights,
    beforeLooks: (n, part) => priors.beforeLooks(n, part),
  };
}
