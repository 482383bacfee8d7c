import type { Pool, PoolClient } from 'pg';
import { DataSource } from 'typeorm';
import { entities } from './entities.js';
import { migrations } from './migrations/index.js';
import { SnakeCase } from './snake-case.js';

/** How long the app waits for a connection, of the pool or of the server. */
const CONNECT_MS = 20_000;

/** How long the database works for the app before it gives up by itself. */
export const SERVER_TIMEOUTS = {
  statement_timeout: 30_000,
  lock_timeout: 20_000,
  idle_in_transaction_session_timeout: 60_000,
} as const;

/** A database that says nothing, not even that it gave up, is gone: a frozen machine, a cut cable. */
const SILENCE_MS = SERVER_TIMEOUTS.statement_timeout + 5_000;

/** A data source on a PostgreSQL URL; the schema comes from the listed migrations alone. */
export function createDataSource(url: string, poolSize = 10): DataSource {
  return dataSource(url, poolSize, {
    ...SERVER_TIMEOUTS,
    query_timeout: SILENCE_MS,
    connectionTimeoutMillis: CONNECT_MS,
    keepAlive: true,
    pipeline: true,
  });
}

/**
 * A pool hears of a lost connection only while it is idle. Whoever has taken it out learns from the query that fails, and
 * nobody may have to listen for more: what nobody listens for ends the process.
 */
export function outliveLostConnections(source: DataSource): DataSource {
  const { master: pool } = source.driver as unknown as { master: Pool };
  pool.on('acquire', (client: PoolClient) => {
    // The pool's own listener is still there now, and gone in a moment.
    if (!client.listeners('error').includes(outlive)) client.on('error', outlive);
  });
  return source;
}

function outlive(): void {}

/** The same for migrations, one connection: what they do may take as long as it takes. */
export function createMigrationSource(url: string): DataSource {
  return dataSource(url, 1, {});
}

function dataSource(url: string, poolSize: number, extra: object): DataSource {
  return new DataSource({
    type: 'postgres',
    url,
    entities,
    migrations,
    namingStrategy: new SnakeCase(),
    synchronize: false,
    migrationsRun: false,
    poolSize,
    extra: { application_name: 'lastheard', ...extra },
  });
}
