// A plain generic solver: a network of tables in dictionaries, summed out one variable after another.

/** A function of some variables: entries that are not listed are 0. */
export interface Factor {
  variables: string[];
  entries: Map<string, number>;
}

export function factor(variables: string[], rows: [(string | number)[], number][]): Factor {
  return {
    variables,
    entries: new Map(rows.filter(([, p]) => p !== 0).map(([row, p]) => [row.join(), p])),
  };
}

/** The same with a letter for each value, so that a key is cut and put together as it is. */
class Lettered {
  constructor(
    readonly variables: readonly string[],
    readonly entries: Map<string, number>,
  ) {}

  times({ variables, entries }: Lettered): Lettered {
    const shared = variables.filter((v) => this.variables.includes(v));
    const inThis = shared.map((v) => this.variables.indexOf(v));
    const inOther = shared.map((v) => variables.indexOf(v));
    const own = variables.flatMap((v, i) => (shared.includes(v) ? [] : [i]));
    const rows = new Map<string, [string, number][]>();
    for (const [key, p] of entries) {
      const row: [string, number] = [lettersAt(key, own), p];
      const known = rows.get(lettersAt(key, inOther));
      if (known) known.push(row);
      else rows.set(lettersAt(key, inOther), [row]);
    }
    const product = new Map<string, number>();
    for (const [key, p] of this.entries) {
      const known = rows.get(lettersAt(key, inThis)) ?? [];
      for (const [rest, q] of known) product.set(key + rest, p * q);
    }
    return new Lettered([...this.variables, ...own.map((i) => variables[i]!)], product);
  }

  without(variable: string, combine: Combine): Lettered {
    const at = this.variables.indexOf(variable);
    const left = new Map<string, number>();
    for (const [key, p] of this.entries) {
      const rest = key.slice(0, at) + key.slice(at + 1);
      left.set(rest, combine(left.get(rest) ?? 0, p));
    }
    return new Lettered(
      this.variables.filter((v) => v !== variable),
      left,
    );
  }
}

function lettersAt(key: string, places: readonly number[]): string {
  let letters = '';
  for (const place of places) letters += key[place]!;
  return letters;
}

class Alphabet {
  private readonly values = new Map<string, string[]>();

  letters({ variables, entries }: Factor): Lettered {
    const known = variables.map((name) => {
      const list = this.values.get(name) ?? [];
      this.values.set(name, list);
      return list;
    });
    const letterOf = (value: string, i: number) => {
      const list = known[i]!;
      const at = list.indexOf(value);
      return String.fromCharCode(at >= 0 ? at : list.push(value) - 1);
    };
    // Without variables there are no values in a key, where split would give one.
    const lettersOf = (key: string) =>
      variables.length === 0 ? '' : key.split(',').map(letterOf).join('');
    return new Lettered(variables, new Map([...entries].map(([key, p]) => [lettersOf(key), p])));
  }

  words({ variables, entries }: Lettered): Factor {
    const known = variables.map((name) => this.values.get(name)!);
    const wordsOf = (key: string) => known.map((list, i) => list[key.charCodeAt(i)]!).join();
    return {
      variables: [...variables],
      entries: new Map([...entries].map(([key, p]) => [wordsOf(key), p])),
    };
  }
}

/** What becomes of chances that differ in the variable eliminated: their sum, or Math.max for the best assignment. */
type Combine = (a: number, b: number) => number;

/**
 * Sums out the variables in this order; what is left is a function of the others.
 *
 * @param see each variable as it is summed out, with the product of what is known about it
 */
export function eliminate(
  factors: readonly Factor[],
  order: readonly string[],
  combine: Combine = (a, b) => a + b,
  see?: (variable: string, product: Factor) => void,
): Factor {
  const alphabet = new Alphabet();
  let left = [...factors, factor([], [[[], 1]])].map((one) => alphabet.letters(one));
  for (const variable of order) {
    const those = left.filter((f) => f.variables.includes(variable));
    left = left.filter((f) => !f.variables.includes(variable));
    those.sort((a, b) => a.entries.size - b.entries.size);
    const product = those.reduce((a, b) => a.times(b));
    see?.(variable, alphabet.words(product));
    left.push(product.without(variable, combine));
  }
  return alphabet.words(left.reduce((a, b) => a.times(b)));
}
