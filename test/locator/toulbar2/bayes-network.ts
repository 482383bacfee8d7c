import { factor, type Factor } from '../eliminate.js';

export interface Variable {
  name: string;
  values: readonly string[];
}

/** A Bayesian network: each variable with its table, in an order where parents come before their children. */
export class BayesNetwork {
  readonly variables: Variable[] = [];
  /** One for each variable, in the same order; the variable itself comes last in its table. */
  readonly tables: Factor[] = [];
  /** Values that are known, by variable. */
  readonly evidence = new Map<string, string>();

  /** @param chances of the new variable's values, given the parents' values; a value left out has chance 0 */
  add(
    name: string,
    values: readonly string[],
    parents: readonly Variable[],
    chances: (...given: string[]) => Readonly<Record<string, number>>,
  ): Variable {
    const rows = combinations(parents).flatMap((given) =>
      Object.entries(chances(...given)).map(([value, p]): [string[], number] => [
        [...given, value],
        p,
      ]),
    );
    const variable = { name, values };
    this.variables.push(variable);
    this.tables.push(factor([...parents.map((parent) => parent.name), name], rows));
    return variable;
  }

  /** A variable that its parents decide. */
  decide(
    name: string,
    values: readonly string[],
    parents: readonly Variable[],
    rule: (...given: string[]) => string,
  ): Variable {
    return this.add(name, values, parents, (...given) => ({ [rule(...given)]: 1 }));
  }
}

/** Every combination of values; the last variable's changes fastest. */
export function combinations(variables: readonly Variable[]): string[][] {
  return variables.reduce<string[][]>(
    (rows, { values }) => rows.flatMap((row) => values.map((value) => [...row, value])),
    [[]],
  );
}
