import type { PoolClient } from 'pg';
import type { EntityManager, EntityTarget } from 'typeorm';

/**
 * Reads one row by its id with a prepared statement. The ORM's finder plans the query, policies and
 * all, each time and builds it anew; on the most frequent read of all that costs more than the rest
 * of the request (`npm run bench`).
 */
export async function findById<Row extends { id: string }>(
  manager: EntityManager,
  entity: EntityTarget<Row>,
  id: string,
): Promise<Row | null> {
  const { driver } = manager.dataSource;
  const { tablePath } = manager.dataSource.getMetadata(entity);
  if (manager.queryRunner === undefined) throw new Error('A row is read in a firm’s transaction');
  const client = (await manager.queryRunner.connect()) as PoolClient;
  const { rows } = await client.query<Record<string, unknown>>({
    name: `find ${tablePath}`,
    text: `SELECT * FROM ${driver.escape(tablePath)} WHERE id = $1`,
    values: [id],
  });
  const [row] = rows;
  return row === undefined ? null : readRow(manager, entity, row);
}

/** A row as the database gives it, as its entity has it. */
export function readRow<Row>(
  manager: EntityManager,
  entity: EntityTarget<Row & object>,
  row: Record<string, unknown>,
): Row {
  const { driver } = manager.dataSource;
  const { columns } = manager.dataSource.getMetadata(entity);
  return Object.fromEntries(
    columns.map((column) => [
      column.propertyName,
      driver.prepareHydratedValue(row[column.databaseName], column) as unknown,
    ]),
  ) as Row;
}
