import type { EntityManager } from 'typeorm';
import type { SqlStatement } from './join-statements.js';

/** Rows of one table as a list in JSON, for statements that read from several at once. */
export interface JsonRows<Row> {
  /** A subquery for the rows that a condition on `row` holds for, in this order. */
  list: (condition: string, order: string) => string;
  /** What it gave, as the table's entity has it. */
  read: (json: Record<string, unknown>[]) => Row[];
}

export function jsonRows<Row>({ dataSource }: EntityManager, table: string): JsonRows<Row> {
  const { columns, tablePath } = dataSource.getMetadata(table);
  const select = columns.map((column) => `row.${column.databaseName} AS "${column.propertyName}"`);
  return {
    list: (condition, order) =>
      `(SELECT coalesce(json_agg(to_json(listed)), '[]') FROM (
         SELECT ${select.join(', ')} FROM ${tablePath} AS row WHERE ${condition} ORDER BY ${order}
       ) AS listed)`,
    read: (json) =>
      json.map(
        (row) =>
          Object.fromEntries(
            columns.map((column) => {
              const value = row[column.propertyName];
              return [
                column.propertyName,
                dataSource.driver.prepareHydratedValue(value, column) as unknown,
              ];
            }),
          ) as Row,
      ),
  };
}

/** Inserts rows by one parameter, however many there are: a statement has 65,535 at most. */
export function insertRows(
  { dataSource }: EntityManager,
  table: string,
  rows: readonly [object, ...object[]],
): SqlStatement {
  const { columns, tablePath } = dataSource.getMetadata(table);
  const [first] = rows;
  const given = columns.filter(({ propertyName }) => propertyName in first);
  const names = given.map(({ databaseName }) => databaseName);
  const properties = given.map(({ propertyName }) => `"${propertyName}"`);
  const typed = given.map(
    ({ propertyName, type, isArray }) =>
      `"${propertyName}" ${type as string}${isArray ? '[]' : ''}`,
  );
  const text = `INSERT INTO ${tablePath} (${names.join(', ')})
     SELECT ${properties.join(', ')} FROM json_to_recordset($1) AS given (${typed.join(', ')})`;
  return { text, values: [JSON.stringify(rows)] };
}
