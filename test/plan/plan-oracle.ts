// Adds up EVERY world of one trunk (plan-world.ts), and sums what is asked about.
import type { Plan } from '#app/plan/plan.js';
import { componentsOf, CONDITIONS, type Numbers, type PlanRequest, World } from './plan-world.js';

const OUTCOMES = ['works', 'weak', 'fails'];
const QUIET_WEIGHT = 0.02;

/** I(what a technician says; condition), in bits. */
function information({ errors: { technician } }: Plan, chances: readonly number[]): number {
  const entropy = (list: readonly number[]) =>
    list.reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0);
  const rows = CONDITIONS.map((condition) => technician[condition]);
  const said = OUTCOMES.map((_, o) => rows.reduce((sum, row, c) => sum + chances[c]! * row[o]!, 0));
  return entropy(said) - rows.reduce((sum, row, c) => sum + chances[c]! * entropy(row), 0);
}

export interface PlanAnswer {
  numbers: Numbers;
  explanations: Numbers;
}

function likelihood(plan: Plan, request: PlanRequest, world: World): number {
  const position = (id: string) => request.nodes.findIndex((node) => node.id === id);
  const people = new Map<string, { all: number; count: number; confused: number }>();
  request.observations.forEach(({ node, function: name, outcome, informant }, o) => {
    const errors = plan.errors[informant?.kind ?? 'office'];
    const chance = errors[world.condition(position(node), name)][OUTCOMES.indexOf(outcome)]!;
    const id = informant?.id ?? `#${o}`;
    const confused = informant?.id === undefined ? 0 : errors.confused;
    const known = people.get(id) ?? { all: 1, count: 0, confused };
    people.set(id, { all: known.all * chance, count: known.count + 1, confused });
  });
  let product = 1;
  for (const { all, count, confused } of people.values())
    product *= (1 - confused) * all + confused * (1 / 3) ** count;
  const { reportRate = 0, functions = [] } = request.unmentioned ?? {};
  const silent = { good: 1, weak: 1 - reportRate / 2, dead: 1 - reportRate };
  request.nodes.forEach(({ id, kind }, n) => {
    if (kind === 'junction-box') return;
    for (const name of functions)
      if (!request.observations.some((one) => one.node === id && one.function === name))
        product *= silent[world.condition(n, name)];
  });
  return product;
}

/** The whole posterior by adding up, quiet worlds weighing less; names as the test gives them to the locator's answer. */
export function enumeratePlan(plan: Plan, request: PlanRequest): PlanAnswer {
  const components = componentsOf(plan, request);
  const world = new World(plan, request, components);
  const numbers: Numbers = {};
  const explanations: Numbers = {};
  const stations = request.nodes.flatMap(({ kind }, n) => (kind === 'station' ? [n] : []));
  const isTold = (n: number) =>
    request.observations.some(({ node }) => node === request.nodes[n]!.id) ||
    (request.nodes[n]!.kind === 'station' && request.unmentioned !== undefined);
  const childrenOf = (n: number) =>
    request.nodes.filter(({ fedFrom }, m) =>
      fedFrom === undefined ? m - 1 === n : fedFrom === request.nodes[n]!.id,
    ).length;
  const informative = [...request.nodes.keys()].filter((n) => isTold(n) || childrenOf(n) > 1);
  const complaints = request.observations.filter(({ outcome }) => outcome !== 'works');
  const points = [...new Set(complaints.map((one) => `${one.function} ${one.node}`))].map((key) => {
    const [name = '', id = ''] = key.split(' ');
    return { name, id, n: request.nodes.findIndex((node) => node.id === id) };
  });
  const add = (name: string, mass: number) => (numbers[name] = (numbers[name] ?? 0) + mass);
  let total = 0;
  const weigh = (prior: number) => {
    world.settle();
    const quiet =
      request.begunBy !== 'round' &&
      points.length > 0 &&
      points.every(({ n, name }) => world.condition(n, name) === 'good');
    const mass = prior * likelihood(plan, request, world) * (quiet ? QUIET_WEIGHT : 1);
    total += mass;
    const faulty = new Set<string>();
    components.forEach(({ name, part }, c) => {
      add(`${name} ${part} ${world.mode[c]}`, mass);
      if (world.mode[c] !== 'ok') faulty.add(name);
    });
    for (const name of faulty) add(name, mass);
    for (const n of stations)
      for (const name of Object.keys(plan.functions))
        add(`${name} A/${request.nodes[n]!.id} is ${world.condition(n, name)}`, mass);
    for (const { n, name, id } of points) {
      const cause = world.cause(n, name);
      add(`${name} A/${id} | ${cause}`, mass);
      if (cause === 'short A')
        for (const place of world.shortsSeen(plan.functions[name]!))
          add(`${name} A/${id} within ${place}`, mass);
    }
    const key = world.explanation(informative);
    explanations[key] = (explanations[key] ?? 0) + mass;
  };
  const assign = (c: number, prior: number) => {
    if (c === components.length) return weigh(prior);
    const { modes, chances } = components[c]!;
    modes.forEach((mode, m) => {
      if (chances[m] === 0) return;
      world.mode[c] = mode;
      assign(c + 1, prior * chances[m]!);
    });
  };
  assign(0, 1);
  for (const name of Object.keys(numbers)) numbers[name]! /= total;
  for (const { name, id } of points)
    for (const { id: at } of request.nodes)
      for (const kind of ['span', 'station']) {
        const key = `${name} A/${id} within ${kind} A/${at}`;
        if (key in numbers) numbers[key]! /= numbers[`${name} A/${id} | short A`]!;
      }
  for (const name of Object.keys(explanations)) explanations[name]! /= total;
  for (const n of stations)
    for (const name of Object.keys(plan.functions)) {
      const at = `${name} A/${request.nodes[n]!.id}`;
      const chances = CONDITIONS.map((one) => numbers[`${at} is ${one}`] ?? 0);
      for (const one of CONDITIONS) delete numbers[`${at} is ${one}`];
      numbers[`${at} works`] = chances[0]! + chances[1]!;
      numbers[`${at} bits`] = information(plan, chances);
    }
  numbers.logEvidence = Math.log(total);
  return { numbers, explanations };
}
