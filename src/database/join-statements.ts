/** A statement with its parameters, which it names `$1`, `$2` and so on, and nothing else so. */
export interface SqlStatement {
  text: string;
  values: readonly unknown[];
}

/**
 * Several writes as one statement, done in one go: none sees what another of them changes, no two may change the same
 * row, and none answers with rows.
 */
export function joinStatements(
  statements: readonly [SqlStatement, ...SqlStatement[]],
): SqlStatement {
  const [first, ...others] = statements;
  if (others.length === 0) return first;
  const values: unknown[] = [];
  const parts = statements.map((one, index) => {
    const before = values.length;
    values.push(...one.values);
    const text = one.text.replaceAll(/\$(\d+)/g, (_, n: string) => `$${before + Number(n)}`);
    return `write_${index} AS (${text})`;
  });
  return { text: `WITH ${parts.join(', ')} SELECT`, values };
}
