import { type BayesNetwork, combinations } from './bayes-network.js';

/**
 * The network in the UAI format: sizes, then the tables, the last variable changing fastest. Type BAYES, even where some
 * tables are products already: toulbar2 takes its tables as they are, and scales those of MARKOV.
 */
export function uai(network: BayesNetwork): string {
  const index = new Map(network.variables.map((variable, i) => [variable.name, i]));
  const at = (name: string) => index.get(name)!;
  const lines = [
    'BAYES',
    String(network.variables.length),
    network.variables.map(({ values }) => values.length).join(' '),
    String(network.tables.length),
    ...network.tables.map(({ variables }) => [variables.length, ...variables.map(at)].join(' ')),
  ];
  for (const { variables, entries } of network.tables) {
    const rows = combinations(variables.map((name) => network.variables[at(name)]!));
    const chances = rows.map((row) => numeral(entries.get(row.join()) ?? 0));
    lines.push(String(rows.length), chances.join(' '));
  }
  return `${lines.join('\n')}\n`;
}

/** Fifteen digits: more than toulbar2's costs keep, and the same from every Node. */
function numeral(p: number): string {
  return String(Number(p.toPrecision(15)));
}

/** What is known, in the UAI format: how many variables, then each with the place of its value. */
export function uaiEvidence(network: BayesNetwork, more: [string, string][] = []): string {
  const known = new Map([...network.evidence, ...more]);
  const pairs = [...known].map(([name, value]) => {
    const variable = network.variables.findIndex((one) => one.name === name);
    return `${variable} ${network.variables[variable]!.values.indexOf(value)}`;
  });
  return `${[known.size, ...pairs].join(' ')}\n`;
}
