import { open, rm } from 'node:fs/promises';
import { setTimeout as delay } from 'node:timers/promises';
import { createGzip } from 'node:zlib';
import { type Client, escapeIdentifier } from 'pg';
import { to as copyTo } from 'pg-copy-streams';
import { withClient } from '../database/built-in-roles.js';
import { BackupError } from './backup-error.js';
import { BACKUP_FORMAT, type BackupEnd, BackupWriter } from './backup-file.js';
import { type BackupTable, jobsSchemaOf, listTables, migrationsOf } from './backup-tables.js';
import { explainFile } from './explain-file.js';

export interface BackupOf {
  ownerUrl: string;
  /** In base 64. */
  sealKey: string;
  version: string;
  madeAt: Date;
}

/**
 * Writes all firms' rows to a new file, as they were at one moment; the app may run meanwhile. Throws, and leaves no file,
 * where one is there already or anything fails.
 */
export async function makeBackup(path: string, of: BackupOf): Promise<BackupEnd> {
  // It holds the key and everybody's data: for its owner's eyes alone.
  const file = await open(path, 'wx', 0o600).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'EEXIST') throw new BackupError(`There is a file ${path} already`);
    throw explainFile(path, error);
  });
  try {
    const zipped = createGzip();
    const sink = file.createWriteStream();
    const failed = new Promise<never>((_, reject) => {
      sink.once('error', reject);
      zipped.once('error', reject);
    });
    const written = new Promise<void>((resolve) => sink.once('close', resolve));
    zipped.pipe(sink);
    const writing = withClient(of.ownerUrl, (client) =>
      copyAll(client, new BackupWriter(zipped), of),
    );
    const end = await Promise.race([writing, failed]);
    await Promise.race([written, failed]);
    return end;
  } catch (error) {
    await rm(path, { force: true });
    throw error;
  }
}

async function copyAll(client: Client, writer: BackupWriter, of: BackupOf): Promise<BackupEnd> {
  await client.query('BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY');
  await client.query('SET LOCAL statement_timeout = 0');
  // The first statement takes the snapshot; firms that are listed after it and are newer have no rows in it.
  const migrations = await migrationsOf(client);
  if (migrations.length === 0) throw new BackupError('There is no data of Lastheard to back up');
  const jobsSchema = await jobsSchemaOf(client);
  const { sealKey, version, madeAt } = of;
  await writer.begin({
    lastheardBackup: BACKUP_FORMAT,
    version,
    madeAt: madeAt.toISOString(),
    migrations,
    jobsSchema,
    sealKey,
  });
  const tables = await listTables(client);
  for (const firm of await listFirms(of.ownerUrl)) {
    await client.query(`SELECT set_config('app.firm_id', $1, true)`, [firm]);
    for (const table of tables.filter(({ ofFirms }) => ofFirms)) await copy(client, writer, table);
  }
  for (const table of tables.filter(({ ofFirms }) => !ofFirms)) await copy(client, writer, table);
  await client.query('COMMIT');
  return writer.end();
}

async function copy(
  client: Client,
  writer: BackupWriter,
  { name, sql, columns, where }: BackupTable,
): Promise<void> {
  const list = columns.map(escapeIdentifier).join(', ');
  const filter = where === undefined ? '' : ` WHERE ${where}`;
  const rows = client.query(copyTo(`COPY (SELECT ${list} FROM ${sql}${filter}) TO STDOUT`));
  await writer.copy({ copy: name, columns }, rows);
}

const TRIES = 50;
const WAIT_MS = 200;

/**
 * Row-level security binds the owner too, so it is lifted from the list of firms for as long as reading it takes, and nobody
 * sees that: it is rolled back, and holds up only who adds a firm or a row of a new one just then.
 */
async function listFirms(ownerUrl: string): Promise<string[]> {
  return withClient(ownerUrl, async (client) => {
    for (let tried = 1; ; tried++) {
      await client.query(`BEGIN; SET LOCAL lock_timeout = '${WAIT_MS}ms'`);
      try {
        await client.query('ALTER TABLE firms NO FORCE ROW LEVEL SECURITY');
        const { rows } = await client.query<{ firm_id: string }>(
          'SELECT firm_id FROM firms ORDER BY firm_id',
        );
        return rows.map(({ firm_id: id }) => id);
      } catch (error) {
        if ((error as { code?: string }).code !== LOCK_NOT_AVAILABLE || tried === TRIES)
          throw error;
      } finally {
        await client.query('ROLLBACK');
      }
      await delay(WAIT_MS);
    }
  });
}

const LOCK_NOT_AVAILABLE = '55P03';
