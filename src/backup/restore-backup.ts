import { once } from 'node:events';
import { type Client, escapeIdentifier } from 'pg';
import { type CopyStreamQuery, from as copyFrom } from 'pg-copy-streams';
import { withClient } from '../database/built-in-roles.js';
import { migrate } from '../database/migrate.js';
import { migrations } from '../database/migrations/index.js';
import { BackupError } from './backup-error.js';
import { type BackupHeader, type BackupPart, readBackup } from './backup-file.js';
import { type BackupTable, jobsSchemaOf, listTables, migrationsOf } from './backup-tables.js';

export interface RestoreTo {
  ownerUrl: string;
  appUrl: string;
}

/** Reads the whole file once, so that a damaged one changes nothing. */
export async function checkBackup(path: string): Promise<BackupHeader> {
  let header: BackupHeader | undefined;
  for await (const part of readBackup(path)) if ('header' in part) header = part.header;
  if (header === undefined) throw new BackupError(`${path} holds no backup`);
  refuseOtherSchema(header);
  return header;
}

/** Puts the rows of a checked file into an empty database, all or none of them. Answers how many. */
export async function restoreBackup(
  path: string,
  header: BackupHeader,
  { ownerUrl, appUrl }: RestoreTo,
): Promise<number> {
  await withClient(ownerUrl, refuseWhereData);
  await migrate(ownerUrl, appUrl);
  return withClient(ownerUrl, async (client) => {
    const jobsSchema = await jobsSchemaOf(client);
    if (header.jobsSchema !== null && header.jobsSchema !== jobsSchema)
      throw new BackupError(
        `Its job queues are of version ${header.jobsSchema}, and here of ${jobsSchema ?? 'none'}: ` +
          `restore it with Lastheard ${header.version}, then update`,
      );
    await client.query('BEGIN');
    // Nobody works in a database that is empty, so these locks hold nobody up.
    const tables = await lift(client);
    await refuseRows(client, tables);
    const count = await load(client, path, tables);
    for (const { sql, ofFirms } of tables)
      if (ofFirms) await client.query(`ALTER TABLE ${sql} FORCE ROW LEVEL SECURITY`);
    await client.query('COMMIT');
    await client.query('ANALYZE');
    return count;
  });
}

function refuseOtherSchema({ migrations: had, version, madeAt }: BackupHeader): void {
  const has = migrations.map(({ name }) => name);
  const made = `It was made by Lastheard ${version} at ${madeAt}`;
  const newer = had.filter((name) => !has.includes(name));
  if (newer.length > 0)
    throw new BackupError(`${made}, which is newer: it has ${newer.join(', ')}. Update first`);
  const older = has.filter((name) => !had.includes(name));
  if (older.length > 0)
    throw new BackupError(
      `${made}, which is older: it lacks ${older.join(', ')}. Restore it with that version, then update`,
    );
}

async function refuseWhereData(client: Client): Promise<void> {
  if ((await migrationsOf(client)).length === 0) return;
  await client.query('BEGIN');
  try {
    await refuseRows(client, await lift(client));
  } finally {
    await client.query('ROLLBACK');
  }
}

/** Row-level security binds the owner too: lifted within the transaction, and nobody else sees that. */
async function lift(client: Client): Promise<BackupTable[]> {
  const tables = await listTables(client);
  for (const { sql, ofFirms } of tables)
    if (ofFirms) await client.query(`ALTER TABLE ${sql} NO FORCE ROW LEVEL SECURITY`);
  return tables;
}

async function refuseRows(client: Client, tables: BackupTable[]): Promise<void> {
  for (const { name, sql } of tables) {
    const { rowCount } = await client.query(`SELECT FROM ${sql} LIMIT 1`);
    if (rowCount !== 0)
      throw new BackupError(
        `There is data already (in ${name}). Restore into an empty database: another DATABASE_URL, or another DATA_DIRECTORY`,
      );
  }
}

async function load(client: Client, path: string, tables: BackupTable[]): Promise<number> {
  const known = new Map(tables.map((table) => [table.name, table]));
  let copying: CopyStreamQuery | undefined;
  let count = 0;
  for await (const part of readBackup(path)) {
    if ('section' in part) copying = beginCopy(client, part, known);
    else if ('rows' in part && copying !== undefined) await write(copying, part.rows);
    else if ('sectionEnd' in part && copying !== undefined) {
      const finished = once(copying, 'finish');
      copying.end();
      await finished;
      count += copying.rowCount;
    }
  }
  return count;
}

function beginCopy(
  client: Client,
  { section }: Extract<BackupPart, { section: unknown }>,
  known: ReadonlyMap<string, BackupTable>,
): CopyStreamQuery {
  const table = known.get(section.copy);
  if (table === undefined) throw new BackupError(`There is no table ${section.copy} here`);
  const columns = section.columns.map(escapeIdentifier).join(', ');
  return client.query(copyFrom(`COPY ${table.sql} (${columns}) FROM STDIN`));
}

async function write(copying: CopyStreamQuery, rows: Buffer): Promise<void> {
  // Rows of the file's buffer, which is not kept past this chunk.
  if (!copying.write(rows)) await once(copying, 'drain');
}
