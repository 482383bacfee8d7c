import type { EntityManager, EntityMetadata, EntityTarget } from 'typeorm';
import type { FirmTransaction } from './firm-transaction.js';

const statements = new WeakMap<EntityMetadata, { name: string; text: string }>();

/**
 * Reads one row by its id with a prepared statement. The ORM's finder plans the query, policies and
 * all, each time and builds it anew; on the most frequent read of all that costs more than the rest
 * of the request (`npm run bench`).
 */
export async function findById<Row extends { id: string }>(
  transaction: FirmTransaction,
  entity: EntityTarget<Row>,
  id: string,
): Promise<Row | null> {
  const metadata = transaction.metadataOf(entity);
  let statement = statements.get(metadata);
  if (statement === undefined) statements.set(metadata, (statement = finderOf(metadata)));
  const [values] = await transaction.rows({ ...statement, values: [id] });
  return values === undefined ? null : (readColumns(metadata, values) as Row);
}

function finderOf({ tablePath, columns, dataSource }: EntityMetadata) {
  const escape = (name: string) => dataSource.driver.escape(name);
  // Each by its name: with a star, a column that a newer process adds would fail the statement until this one ends.
  const names = columns.map(({ databaseName }) => escape(databaseName)).join(', ');
  return {
    name: `find ${tablePath}`,
    text: `SELECT ${names} FROM ${escape(tablePath)} WHERE id = $1`,
  };
}

/** A row as the database gives it, as its entity has it. */
export function readRow<Row>(
  manager: EntityManager,
  entity: EntityTarget<Row & object>,
  row: Record<string, unknown>,
): Row {
  const metadata = manager.dataSource.getMetadata(entity);
  const values = metadata.columns.map(({ databaseName }) => row[databaseName]);
  return readColumns(metadata, values) as Row;
}

function readColumns({ columns, dataSource }: EntityMetadata, values: readonly unknown[]): object {
  const { driver } = dataSource;
  const row: Record<string, unknown> = {};
  let at = 0;
  for (const column of columns)
    row[column.propertyName] = driver.prepareHydratedValue(values[at++], column) as unknown;
  return row;
}
