/** A statement with its parameters, which it names `$1`, `$2` and so on, and nothing else so. */
export interface SqlStatement {
  text: string;
  values: readonly unknown[];
}

/**
 * Several writes as one statement, done in one go: none sees what another of them changes, no two may change the same
 * row, and none answers with rows. A query beside them answers with what there was before.
 */
export function joinStatements(
  statements: readonly [SqlStatement, ...SqlStatement[]],
  beside?: SqlStatement,
): SqlStatement {
  const [first, ...others] = statements;
  if (others.length === 0 && beside === undefined) return first;
  const values: unknown[] = [];
  const renumbered = (one: SqlStatement) => {
    const before = values.length;
    values.push(...one.values);
    return one.text.replaceAll(/\$(\d+)/g, (_, n: string) => `$${before + Number(n)}`);
  };
  const writes = statements.map((one, index) => `write_${index} AS (${renumbered(one)})`);
  const read = beside === undefined ? 'SELECT' : renumbered(beside);
  return { text: `WITH ${writes.join(', ')} ${read}`, values };
}
