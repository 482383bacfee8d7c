import { type Client, escapeIdentifier } from 'pg';
import { JOB_SCHEMA } from '../jobs/job-kinds.js';
import { BackupError } from './backup-error.js';

/** A table as a backup holds it. */
export interface BackupTable {
  /** With its schema, such as `public.people`. */
  name: string;
  /** The same, quoted for SQL. */
  sql: string;
  columns: string[];
  /** Which of its rows are kept; left out: all. */
  where?: string;
  /** Whether its rows are told apart by firm. */
  ofFirms: boolean;
}

/** Jobs that are still to be done; what was done is told elsewhere. */
const WAITING_JOBS = `state IN ('created', 'retry', 'active')`;

/**
 * Every table of the schema, those that others refer to first, then the jobs that wait. Not the list of migrations, which the
 * restoring app makes itself, nor counts of requests.
 */
export async function listTables(client: Client): Promise<BackupTable[]> {
  const { rows } = await client.query<{ table: string; columns: string[]; forced: boolean }>(`
    SELECT c.relname AS table, c.relforcerowsecurity AS forced,
      array(SELECT a.attname::text FROM pg_attribute a
        WHERE a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped AND a.attgenerated = ''
        ORDER BY a.attnum) AS columns
    FROM pg_class c
    WHERE c.relnamespace = 'public'::regnamespace AND c.relkind = 'r' AND c.relname <> 'migrations'
    ORDER BY c.relname`);
  const { rows: references } = await client.query<{ from: string; to: string }>(`
    SELECT conrelid::regclass::text AS from, confrelid::regclass::text AS to FROM pg_constraint
    WHERE contype = 'f' AND connamespace = 'public'::regnamespace AND conrelid <> confrelid`);
  const tables = rows.map(({ table, columns, forced }): BackupTable => {
    const sql = `public.${escapeIdentifier(table)}`;
    return { name: `public.${table}`, sql, columns, ofFirms: forced };
  });
  return [...inOrder(tables, references), ...(await jobTables(client))];
}

async function jobTables(client: Client): Promise<BackupTable[]> {
  const { rows } = await client.query<{ column: string }>(
    `SELECT attname::text AS column FROM pg_attribute
     WHERE attrelid = to_regclass($1) AND attnum > 0 AND NOT attisdropped AND attgenerated = ''
     ORDER BY attnum`,
    [`${JOB_SCHEMA}.job`],
  );
  if (rows.length === 0) return [];
  const name = `${JOB_SCHEMA}.job`;
  const columns = rows.map(({ column }) => column);
  return [{ name, sql: name, columns, where: WAITING_JOBS, ofFirms: false }];
}

function inOrder(tables: BackupTable[], references: { from: string; to: string }[]): BackupTable[] {
  const ordered: BackupTable[] = [];
  const waiting = new Map(tables.map((table) => [table.name, table]));
  const needs = (name: string) =>
    references.filter(({ from }) => `public.${from}` === name).map(({ to }) => `public.${to}`);
  while (waiting.size > 0) {
    const free = [...waiting.values()].filter(
      ({ name }) => !needs(name).some((each) => waiting.has(each)),
    );
    if (free.length === 0)
      throw new BackupError(
        `Tables refer to each other in a circle: ${[...waiting.keys()].join()}`,
      );
    for (const table of free) waiting.delete(table.name);
    ordered.push(...free);
  }
  return ordered;
}

/** Names of the migrations that a database has, oldest first; none where it is new. */
export async function migrationsOf(client: Client): Promise<string[]> {
  const { rows: there } = await client.query<{ migrations: string | null }>(
    `SELECT to_regclass('public.migrations')::text AS migrations`,
  );
  if (there[0]?.migrations == null) return [];
  const { rows } = await client.query<{ name: string }>('SELECT name FROM migrations ORDER BY id');
  return rows.map(({ name }) => name);
}

/** The version of the job queues' tables; null where there are none. */
export async function jobsSchemaOf(client: Client): Promise<number | null> {
  const { rows: there } = await client.query<{ version: string | null }>(
    `SELECT to_regclass('${JOB_SCHEMA}.version')::text AS version`,
  );
  if (there[0]?.version == null) return null;
  const { rows } = await client.query<{ version: number }>(
    `SELECT version FROM ${JOB_SCHEMA}.version`,
  );
  return rows[0]?.version ?? null;
}
