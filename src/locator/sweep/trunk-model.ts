import type { TrunkExpectation } from '../../plan/expected-faults.js';
import type { FunctionSet } from '../../plan/functions.js';
import type { RateTables } from '../../plan/rates.js';
import { type LabelPlan, labelPlan } from '../readings/label-plan.js';
import type { TrunkReadings } from '../readings/trunk-readings.js';
import type { ContextPlan } from './contexts.js';
import type { Disconnections } from './disconnections.js';
import type { HeadEndGroups } from './head-end-groups.js';
import type { Looks } from './looks.js';
import { type NodeWeights, Priors } from './priors.js';
import {
  type FeltFeed,
  nodeLikelihood,
  type NodeLikelihood,
  type Silenced,
} from './node-likelihood.js';
import type { SpanChances } from './span-chances.js';
import type { EffectClasses } from './effect-classes.js';
import type { StateSpace } from './state-space.js';
import type { System } from './system.js';
import type { StationChances } from './station-classes.js';
import type { TrunkTree } from './trunk-tree.js';
import type { ByCondition, ConfusionFlag, StatementsOfOne } from './statements.js';

/** Everything that the two sweeps of one trunk need: priors, likelihoods, contexts. */
export interface TrunkModel {
  readonly system: System;
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
  /** What the chances of its components are made of. */
  readonly priors: Priors;
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
    system,
    statements,
    station,
    plan,
    zone,
    space,
  }: Pick<TrunkModel, 'system' | 'statements' | 'station' | 'plan' | 'zone' | 'space'>,
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
      nodeLikelihood(
        heard,
        disables,
        flags,
        { system, classes: space.classes },
        {
          felt: passing.felt,
          silenced: passing.silenced?.(zone[n] ?? 0),
          possible,
        },
      );
    known.set(key, likelihood);
    return likelihood;
  });
}

function pointsOf(statements: readonly (readonly StatementsOfOne[])[]): FunctionSet[] {
  return statements.map((heard) =>
    heard
      .flatMap(({ items }) => items)
      .reduce((set, { isComplaint, func }) => (isComplaint ? set | (1 << func) : set), 0),
  );
}

export function trunkModel(
  tree: TrunkTree,
  statements: readonly (readonly StatementsOfOne[])[],
  plan: ContextPlan,
  flags: readonly ConfusionFlag[],
  given: {
    system: System;
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
  const { system, rates, years, headEnd, zone, cuts, looks, expected, readings } = given;
  const { space } = cuts;
  const effects = readings?.stretches.length ? space.effectsApart : space.effects;
  const priors = new Priors(system, tree, rates, effects, looks, expected);
  const port = priors.port(years);
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
    system,
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
    likelihood: trunkLikelihood(
      { system, statements, plan, zone, space, station: spans.station },
      headEnd,
    ),
    isPowerless: headEnd.isPowerless,
    portOk: port.ok,
    portNoOutput: port.modes[0] ?? 0,
    weights: nodes.map((n) => priors.weights(n)),
    portWeights: port.weights,
    priors,
  };
}
