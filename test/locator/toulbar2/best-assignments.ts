import { eliminate, type Factor } from '../eliminate.js';
import type { BayesNetwork } from './bayes-network.js';

export interface BestAssignments {
  /** log P of the most probable complete assignment together with the evidence. */
  logBest: number;
  /** How far the log P of each is behind the best one's, nearest first. */
  distances: number[];
}

/**
 * The complete assignments of every variable whose log P is at most so far behind the best one's. Walks the elimination
 * of the best backwards: given the variables eliminated later, the product kept for a variable says exactly what each of
 * its values costs at best, so no path is tried in vain.
 */
export function bestAssignments(network: BayesNetwork, within: number): BestAssignments {
  const tables = tablesGiven(network);
  const steps: Step[] = [];
  const best = eliminate(tables, fewestNewLinksFirst(tables), Math.max, (variable, product) =>
    steps.unshift(costsOf(variable, product)),
  );
  const distances: number[] = [];
  const now = new Map<string, string>();
  const walk = (step: number, behind: number) => {
    const next = steps[step];
    if (!next) return void distances.push(behind);
    const given = next.others.map((name) => now.get(name)).join();
    for (const [value, cost] of next.costs.get(given) ?? []) {
      if (behind + cost > within) continue;
      now.set(next.variable, value);
      walk(step + 1, behind + cost);
    }
  };
  walk(0, 0);
  distances.sort((a, b) => a - b);
  return { logBest: Math.log(best.entries.get('') ?? 0), distances };
}

interface Step {
  variable: string;
  others: string[];
  /** By the others' values: each value of the variable, and how far behind the best it falls. */
  costs: Map<string, [string, number][]>;
}

function costsOf(variable: string, product: Factor): Step {
  const at = product.variables.indexOf(variable);
  const chances = new Map<string, [string, number][]>();
  for (const [key, p] of product.entries) {
    const row = key.split(',');
    const [value] = row.splice(at, 1);
    const given = row.join();
    const list = chances.get(given);
    if (list) list.push([value!, p]);
    else chances.set(given, [[value!, p]]);
  }
  const costs = new Map<string, [string, number][]>();
  for (const [given, list] of chances) {
    const best = Math.max(...list.map(([, p]) => p));
    costs.set(
      given,
      list.map(([value, p]) => [value, Math.log(best / p)]),
    );
  }
  return { variable, others: product.variables.filter((name) => name !== variable), costs };
}

/** The tables without the rows that the evidence rules out. */
function tablesGiven(network: BayesNetwork): Factor[] {
  return network.tables.map(({ variables, entries }) => {
    const known = variables.map((name) => network.evidence.get(name));
    const isPossible = (key: string) =>
      key.split(',').every((value, i) => known[i] === undefined || known[i] === value);
    return { variables, entries: new Map([...entries].filter(([key]) => isPossible(key))) };
  });
}

/** An order of elimination for any network: always the variable whose neighbours lack the fewest links (min-fill). */
function fewestNewLinksFirst(tables: readonly Factor[]): string[] {
  const neighbours = new Map<string, Set<string>>();
  for (const { variables } of tables)
    for (const name of variables)
      neighbours.set(name, new Set([...(neighbours.get(name) ?? []), ...variables]));
  const newLinks = (around: Set<string>) =>
    [...around].reduce((sum, a) => sum + around.size - countShared(neighbours.get(a)!, around), 0);
  const order: string[] = [];
  while (neighbours.size > 0) {
    const [next, around] = smallest([...neighbours], ([, set]) => newLinks(set));
    for (const name of around) {
      const theirs = neighbours.get(name)!;
      for (const other of around) theirs.add(other);
      theirs.delete(next);
    }
    neighbours.delete(next);
    order.push(next);
  }
  return order;
}

function countShared(a: Set<string>, b: Set<string>): number {
  let shared = 0;
  for (const name of b) if (a.has(name)) shared++;
  return shared;
}

function smallest<T>(list: readonly T[], size: (one: T) => number): T {
  const sizes = list.map(size);
  return list[sizes.indexOf(Math.min(...sizes))]!;
}
