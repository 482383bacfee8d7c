import { power } from '../../elementary/power.js';
import {
  CONFUSED_LIKELIHOOD,
  type ErrorRates,
  type InformantErrors,
  OUTCOMES,
} from '../../plan/error-rates.js';
import type { FunctionName } from '../../plan/functions.js';
import type { RequestObservation, Unmentioned } from '../request/locate-request.js';
import { compareIds } from '../../drawing/drawn-tree.js';
import type { Disconnections } from './disconnections.js';
import type { TrunkTree } from './trunk-tree.js';

/** P(something | good), P(something | weak), P(something | dead). */
export type ByCondition = readonly [number, number, number];

/** What is known of one function at one node. */
export interface Statement {
  readonly func: number;
  /** Of what was said. */
  readonly likelihood: ByCondition;
  /** Of everything that could have been said in its place. */
  readonly outcomes: readonly ByCondition[];
  /** Its place in the request's list; -1 for silence about a room. */
  readonly observation: number;
  /** Somebody said that it does not work as it should, with the trunk whole. */
  readonly isComplaint: boolean;
  /** When it was so: everything of one sitting was so at the same time. */
  readonly sitting: number;
  /** How the trunk was connected then: 0 whole, else as Disconnections numbers it. */
  readonly way: number;
}

/** What one informant told at one node. */
export interface StatementsOfOne {
  readonly items: readonly Statement[];
  /** Chance that the informant is confused; 0 for one who cannot be, or whose confusion is a flag. */
  readonly confused: number;
  /** Likelihood of the statements from a confused informant. */
  readonly ifConfused: number;
  /** The flag of an informant who told about several nodes; -1 for one who did not. */
  readonly flag: number;
}

/** An informant who told about several nodes and may be confused: a variable that those nodes share. */
export interface ConfusionFlag {
  readonly id: string;
  /** How many things the informant told. */
  readonly words: number;
  readonly confused: number;
  /** Trunks, as positions in the request by id, with the nodes told about there. */
  readonly nodes: ReadonlyMap<number, readonly number[]>;
}

export interface SiteStatements {
  /** By trunk, by node. */
  readonly at: readonly (readonly (readonly StatementsOfOne[])[])[];
  readonly flags: readonly ConfusionFlag[];
}

interface Told {
  trunk: number;
  node: number;
  statement: Statement;
  key: string;
  /** It was told with the trunk whole, so that the room was mentioned. */
  isMention: boolean;
}

/** Without sittings, all of it was so at the same time. */
interface InSitting {
  sitting?: number;
}

function byOutcome({ good, weak, dead }: InformantErrors): ByCondition[] {
  return good.map((_, said) => [good[said] ?? 0, weak[said] ?? 0, dead[said] ?? 0]);
}

function toldOf(
  functions: readonly FunctionName[],
  observations: readonly (RequestObservation & InSitting)[],
  trees: readonly TrunkTree[],
  cuts: readonly Disconnections[],
  errors: ErrorRates,
) {
  const trunkAt = new Map(trees.map((tree, t) => [tree.id, t]));
  const nodeAt = trees.map((tree) => new Map(tree.nodeIds.map((id, n) => [id, n])));
  const outcomesOf = { office: byOutcome(errors.office), technician: byOutcome(errors.technician) };
  return observations.map((observation, o) => {
    const { id, kind } = observation.informant ?? { kind: 'office' };
    const trunk = trunkAt.get(observation.trunk) ?? -1;
    const node = nodeAt[trunk]?.get(observation.node) ?? -1;
    const func = functions.indexOf(observation.function);
    const outcome = OUTCOMES.indexOf(observation.outcome);
    const outcomes = outcomesOf[kind];
    const likelihood = outcomes[outcome] ?? [0, 0, 0];
    const { sitting = 0 } = observation;
    const { disconnectedBelow: at } = observation;
    const isMention = at === undefined;
    const way = isMention ? 0 : wayOf(cuts[trunk], nodeAt[trunk]?.get(at));
    const statement = {
      func,
      likelihood,
      outcomes,
      observation: o,
      isComplaint: outcome > 0 && isMention,
      sitting,
      way,
    };
    const key = `${kind} ${func} ${outcome} ${way}`;
    const told: Told = { trunk, node, statement, key, isMention };
    return { id, confused: errors[kind].confused, told };
  });
}

function wayOf(cuts: Disconnections | undefined, node: number | undefined): number {
  return node === undefined ? 0 : (cuts?.nodes.indexOf(node) ?? -1) + 1;
}

function byPlace(a: Told, b: Told): number {
  return a.trunk - b.trunk || a.node - b.node || compareIds(a.key, b.key);
}

function groupByNode(told: readonly Told[]): Told[][] {
  const groups: Told[][] = [];
  for (const one of told) {
    const last = groups.at(-1);
    if (last?.[0]?.trunk === one.trunk && last[0].node === one.node) last.push(one);
    else groups.push([one]);
  }
  return groups;
}

/** P(report nothing | condition): fault model section 4, "Not mentioned". */
function silence(unmentioned: Unmentioned & InSitting, func: number): StatementsOfOne {
  const rate = unmentioned.reportRate;
  const silent = [1, 1 - rate / 2, 1 - rate] as const;
  const sitting = unmentioned.sitting ?? 0;
  const statement: Statement = {
    func,
    likelihood: silent,
    outcomes: [silent, [0, rate / 2, rate]],
    observation: -1,
    isComplaint: false,
    sitting,
    way: 0,
  };
  return { items: [statement], confused: 0, ifConfused: 0, flag: -1 };
}

/**
 * The evidence by node, in an order that does not depend on the request's. An informant with an identity has one list at
 * each node told about; told about one node only, the confusion can be mixed in there; else it is a flag.
 */
export function collectStatements(
  functions: readonly FunctionName[],
  observations: readonly (RequestObservation & InSitting)[],
  unmentioned: (Unmentioned & InSitting) | undefined,
  trees: readonly TrunkTree[],
  cuts: readonly Disconnections[],
  errors: ErrorRates,
): SiteStatements {
  const at: StatementsOfOne[][][] = trees.map((tree) => tree.nodeIds.map(() => []));
  const flags: ConfusionFlag[] = [];
  const all = toldOf(functions, observations, trees, cuts, errors);
  const people = new Map<string, { confused: number; told: Told[] }>();
  const anonymous: Told[] = [];
  for (const { id, confused, told } of all) {
    if (id === undefined || confused === 0) anonymous.push(told);
    else if (people.has(id)) people.get(id)?.told.push(told);
    else people.set(id, { confused, told: [told] });
  }
  const hear = (group: Told[], confused: number, flag: number) => {
    const [place] = group;
    if (!place) return;
    const items = group.map((told) => told.statement);
    const ifConfused = power(CONFUSED_LIKELIHOOD, items.length);
    at[place.trunk]?.[place.node]?.push({ items, confused, ifConfused, flag });
  };
  for (const group of groupByNode(anonymous.sort(byPlace))) hear(group, 0, -1);
  for (const [id, { confused, told }] of [...people].sort(([a], [b]) => compareIds(a, b))) {
    const groups = groupByNode(told.sort(byPlace));
    if (groups.length === 1) groups.forEach((group) => hear(group, confused, -1));
    else {
      const nodes = new Map<number, number[]>();
      for (const [place] of groups)
        if (place) nodes.set(place.trunk, [...(nodes.get(place.trunk) ?? []), place.node]);
      for (const group of groups) hear(group, 0, flags.length);
      flags.push({ id, words: told.length, confused, nodes });
    }
  }
  if (unmentioned) addSilences(functions, at, unmentioned, all, trees);
  return { at, flags };
}

function addSilences(
  functions: readonly FunctionName[],
  at: StatementsOfOne[][][],
  unmentioned: Unmentioned,
  all: readonly { told: Told }[],
  trees: readonly TrunkTree[],
): void {
  const mentioned = new Set(
    all
      .filter(({ told }) => told.isMention)
      .map(({ told }) => `${told.trunk} ${told.node} ${told.statement.func}`),
  );
  for (const [func, name] of functions.entries()) {
    if (!unmentioned.functions.includes(name)) continue;
    const ofOne = silence(unmentioned, func);
    trees.forEach((tree, t) =>
      tree.nodeIds.forEach((_, n) => {
        if (
          tree.isStation[n] &&
          (tree.fitted[n] ?? 0) & (1 << func) &&
          !mentioned.has(`${t} ${n} ${func}`)
        )
          at[t]?.[n]?.push(ofOne);
      }),
    );
  }
}
