import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';

import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { escapeIdentifier } from 'pg';

import { makeBackup } from '#app/backup/make-backup.js';
import { JobService } from '#app/jobs/job.service.js';
import { BackgroundService } from '#app/shared/background.service.js';
import { checkBackup, restoreBackup } from '#app/backup/restore-backup.js';
import { createDatabase, databaseUrl, withClient } from '#app/database/built-in-roles.js';
import { startBuiltInServer } from '#app/database/built-in-server.js';

import { PIXEL } from './support/pictures.js';
import { cloneDatabase, type ClonedDatabase } from './support/clone-database.js';
import { buildTestApp, SEAL_KEY, type TestApp } from './support/test-app.js';
import { cases } from './support/thorough.js';

const OTHER_FIRM = '01900000-0000-7000-8000-0000000000f2';
const CLIENT = '01900000-0000-7000-8000-00000000c201';
const SITE = '01900000-0000-7000-8000-00000000d201';
const NOTE = { changedBy: 'Ilvo Marsh', reason: 'Installed\\ \t "as" drawn' };
/** Backups while others write. */
const BUSY = cases({ all: 5, usual: 3 });
const KEY = SEAL_KEY.toString('base64');

describe('backup and restore', () => {
  let test: TestApp;
  let directory: string;
  let file: string;
  const superuserUrl = process.env['TEST_SUPERUSER_URL'] ?? '';
  const targets: ClonedDatabase[] = [];

  beforeAll(async () => {
    // A job that was tried once and waits to be tried again would be done under the comparison.
    test = await buildTestApp({ jobsRest: true });
    directory = mkdtempSync(join(tmpdir(), 'lastheard-backup-'));
    file = join(directory, 'whole.backup');
    await test.addFirm(OTHER_FIRM);
    await test.addPerson('owner', { firmId: OTHER_FIRM, name: 'Bea Orne' });
    const post = (path: string, body?: object) =>
      test.http.post(`/api/v1/${path}`).send(body).expect(201);
    await post('clients', { id: CLIENT, name: '\\N and \\. are names too; é, 教室, "quoted"' });
    await post('sites', { id: SITE, clientId: CLIENT, name: 'Lower School', zone: 'UTC' });
    await drawNodes(0, 40);
    const { body } = await post(`sites/${SITE}/reports`, {
      saidBy: { name: 'Tamsin Roe', kind: 'office' },
      how: 'volunteered',
      observations: [{ trunk: 'A', node: 'N3', function: 'bell', outcome: 'fails' }],
    });
    await post(`tickets/${body.tickets[0].id}/photos`, { image: PIXEL });
    await post(`sites/${SITE}/passes`);
    await test.app.get(BackgroundService).settle();
    await test.app.get(JobService).settle();
    await withClient(onSource(), (client) =>
      client.query(`INSERT INTO jobs.job (name, data, state) VALUES
        ('mail', '{"mailId": "waits"}', 'retry'), ('mail', '{"mailId": "is done"}', 'completed')`),
    );
    await makeBackup(file, backupOf());
  });

  afterAll(async () => {
    for (const target of targets) await target.drop();
    await test.close();
    rmSync(directory, { recursive: true, force: true });
  });

  const backupOf = () => ({
    ownerUrl: test.ownerUrl,
    sealKey: KEY,
    version: '0.1.0',
    madeAt: test.clock.now(),
  });
  const onSource = () => sameDatabase(superuserUrl, test.ownerUrl);
  const drawNodes = (version: number, count: number) =>
    test.http
      .put(`/api/v1/sites/${SITE}/as-built`)
      .set('If-Match', `"${version}"`)
      .send({
        ...NOTE,
        headEnd: {},
        trunks: [
          {
            trunk: 'A',
            nodes: Array.from({ length: count }, (_, i) => ({
              node: `N${i}`,
              cableMetres: 1 + version,
              groups: ['a "b" {c}', 'd\\e'],
            })),
          },
        ],
      })
      .expect(200);
  const emptyTarget = async () => {
    const target = await cloneDatabase();
    targets.push(target);
    return target;
  };
  const restoreInto = async (target: { ownerUrl: string; appUrl: string }, path = file) =>
    restoreBackup(path, await checkBackup(path), target);

  it('brings back every table of every firm, row for row', async () => {
    const target = await emptyTarget();
    const count = await restoreInto(target);
    const before = await everyTable(onSource());
    expect(await everyTable(sameDatabase(superuserUrl, target.ownerUrl))).toEqual(before);
    const filled = Object.entries(before).filter(([, { rows }]) => rows > 0);
    expect(filled.map(([table]) => table)).toEqual(
      expect.arrayContaining([
        'firms',
        'as_built_nodes',
        'observations',
        'site_passes',
        'api_tokens',
      ]),
    );
    expect(before['firms']!.rows).toBe(2);
    expect(count).toBe(filled.reduce((sum, [, { rows }]) => sum + rows, 0));
    // The mail that waits is among them, the one that is done is not.
    const waiting = `SELECT name, data FROM jobs.job WHERE name = 'mail'`;
    const there = await withClient(
      sameDatabase(superuserUrl, target.ownerUrl),
      async (client) => (await client.query<{ data: unknown }>(waiting)).rows,
    );
    expect(there.map(({ data }) => data)).toEqual([{ mailId: 'waits' }]);
    // Firms are kept apart there as they were here.
    const forced = `SELECT relname, relforcerowsecurity FROM pg_class
      WHERE relnamespace = 'public'::regnamespace AND relkind = 'r' ORDER BY relname`;
    const rules = async (url: string) =>
      withClient(url, async (client) => (await client.query(forced)).rows);
    expect(await rules(target.ownerUrl)).toEqual(await rules(test.ownerUrl));
  });

  it('keeps to one moment while others write', async () => {
    let version = 1;
    let writing = true;
    const writes = (async () => {
      while (writing) await drawNodes(version++, 400);
    })();
    const path = join(directory, 'busy.backup');
    for (let i = 0; i < BUSY; i++) {
      await makeBackup(`${path}${i}`, backupOf());
    }
    writing = false;
    await writes;
    for (let i = 0; i < BUSY; i++) {
      const target = await emptyTarget();
      await restoreInto(target, `${path}${i}`);
      const torn = `SELECT id FROM sites WHERE as_built_version <>
          (SELECT max(number) FROM as_built_versions v WHERE v.site_id = sites.id)
        OR as_built_version <> (SELECT max(since_version) FROM as_built_nodes n WHERE n.site_id = sites.id)`;
      await withClient(sameDatabase(superuserUrl, target.ownerUrl), async (client) => {
        expect((await client.query(torn)).rows).toEqual([]);
        expect((await client.query('SELECT FROM sites')).rowCount).toBe(1);
      });
    }
  });

  it('refuses a place with data in it, also on a second restore, and changes nothing there', async () => {
    const target = await emptyTarget();
    await restoreInto(target);
    const url = sameDatabase(superuserUrl, target.ownerUrl);
    const before = await everyTable(url);
    await expect(restoreInto(target)).rejects.toThrow(/There is data already \(in public\.\w+\)/);
    expect(await everyTable(url)).toEqual(before);
    await expect(makeBackup(file, backupOf())).rejects.toThrow('already');
    expect(statSync(file).mode & 0o777).toBe(0o600);
  });

  it('refuses a damaged file whatever is wrong with it', async () => {
    const bytes = readFileSync(file);
    const lines = gunzipSync(bytes).toString().split('\n');
    const damaged = (name: string, content: Buffer) => {
      const path = join(directory, name);
      writeFileSync(path, content);
      return path;
    };
    const packed = (text: string[]) => gzipSync(text.join('\n'));
    const row = lines.findIndex((line) => line.includes('Lower School'));
    const cases = {
      flipped: Buffer.from(bytes.map((byte, at) => (at === bytes.length >> 1 ? byte ^ 1 : byte))),
      short: bytes.subarray(0, bytes.length - 100),
      shorter: bytes.subarray(0, 20),
      empty: Buffer.alloc(0),
      text: Buffer.from('no backup'),
      changed: packed(lines.with(row, lines[row]!.replace('Lower', 'Upper'))),
      withoutRow: packed(lines.toSpliced(row, 1)),
      withoutEnd: packed([...lines.slice(0, -2), '']),
      doubled: packed([...lines.slice(0, -1), ...lines]),
      otherThing: packed(['{"name": "x"}', '']),
      otherFormat: packed(resealed(lines, (header) => ({ ...header, lastheardBackup: 7 }))),
    };
    for (const [name, content] of Object.entries(cases)) {
      await expect(checkBackup(damaged(name, content))).rejects.toThrow(
        name === 'otherFormat' ? 'format 7' : /damaged|no backup/,
      );
    }
    await expect(checkBackup(directory)).rejects.toThrow(`FILE: ${directory} is a folder`);
    const good = damaged('resealed', packed(resealed(lines, (header) => header)));
    await expect(checkBackup(good)).resolves.toMatchObject({ version: '0.1.0' });
  });

  it('refuses what an older or a newer version made, and says which', async () => {
    const lines = gunzipSync(readFileSync(file)).toString().split('\n');
    const made = (name: string, migrations: (all: string[]) => string[]) => {
      const path = join(directory, name);
      const changed = resealed(lines, (header) => ({
        ...header,
        version: '9.1.0',
        migrations: migrations(header['migrations'] as string[]),
      }));
      writeFileSync(path, gzipSync(changed.join('\n')));
      return path;
    };
    await expect(checkBackup(made('newer', (all) => [...all, 'Later1']))).rejects.toThrow(
      'Lastheard 9.1.0 at 2026-03-02T08:00:00.000Z, which is newer: it has Later1. Update first',
    );
    await expect(checkBackup(made('older', (all) => all.slice(0, -1)))).rejects.toThrow(
      /which is older: it lacks \w+\. Restore it with that version, then update/,
    );
  });

  it('goes from a server to the built-in one by its two commands, with the key', async () => {
    const path = join(directory, 'command.backup');
    const source = {
      DATABASE_URL: test.appUrl,
      MIGRATION_DATABASE_URL: test.ownerUrl,
      SEAL_KEY: KEY,
    };
    expect(run('backup', [path], source)).toMatchObject({ status: 0 });
    expect(run('backup', [path], source).stderr).toContain('already');
    expect(run('backup', [], source).stderr).toContain('Usage');
    const { SEAL_KEY: _, ...keyless } = source;
    const lost = { ...keyless, DATA_DIRECTORY: join(directory, 'nothing') };
    expect(run('backup', [`${path}2`], lost).stderr).toContain('There is no SEAL_KEY');
    expect(existsSync(join(directory, 'nothing'))).toBe(false);

    const to = { DATA_DIRECTORY: join(directory, 'restored') };
    const restored = run('restore', [path], to);
    expect(restored.stderr).toBe('');
    expect(restored.stdout).toMatch(/^Restored \d+ rows as they were at /);
    expect(readFileSync(join(directory, 'restored', 'seal-key'), 'utf8').trim()).toBe(KEY);
    expect(run('restore', [path], to).stderr).toContain('There is data already');
    const nowhere = join(directory, 'nowhere', 'x.backup');
    for (const [path, why] of [
      [nowhere, 'there is no such file or folder'],
      [directory, 'is a folder'],
    ] as const) {
      const untouched = { DATA_DIRECTORY: join(directory, 'untouched') };
      const { status, stderr } = run('restore', [path], untouched);
      expect([status, stderr]).toEqual([1, expect.stringMatching(new RegExp(`^FILE: .*${why}`))]);
      expect(stderr).toContain(path);
      expect(stderr).not.toMatch(/ENOENT|EISDIR/);
      expect(existsSync(untouched.DATA_DIRECTORY)).toBe(false);
    }
    const unmade = run('backup', [nowhere], source);
    expect([unmade.status, unmade.stderr]).toEqual([1, expect.stringMatching(/^FILE: /)]);
    expect(unmade.stderr).not.toContain('ENOENT');
    const otherKey = Buffer.alloc(32, 'other').toString('base64');
    expect(run('restore', [path], { ...to, SEAL_KEY: otherKey }).stderr).toContain(
      'SEAL_KEY is another key than the backup’s',
    );
    const server = await startBuiltInServer({
      dataDirectory: to.DATA_DIRECTORY,
      log: () => undefined,
    });
    try {
      expect(await everyTable(sameDatabase(server.superuserUrl, server.ownerUrl))).toEqual(
        await everyTable(onSource()),
      );
    } finally {
      await server.stop();
    }
  });

  it('makes the schema where there is none yet', async () => {
    const name = `test_backup_bare_${process.pid}`;
    await withClient(superuserUrl, (client) => createDatabase(client, name, ''));
    const database = { database: name };
    try {
      await restoreInto({
        ownerUrl: databaseUrl(test.ownerUrl, database),
        appUrl: databaseUrl(test.appUrl, database),
      });
      const bare = databaseUrl(superuserUrl, database);
      expect((await everyTable(bare))['clients']).toEqual(
        (await everyTable(onSource()))['clients'],
      );
    } finally {
      await withClient(superuserUrl, (client) =>
        client.query(`DROP DATABASE ${escapeIdentifier(name)} WITH (FORCE)`),
      );
    }
  });
});

/** Changes the header of a file's lines and makes the checksum right again. */
function resealed(
  lines: string[],
  change: (header: Record<string, unknown>) => Record<string, unknown>,
): string[] {
  const header = JSON.stringify(change(JSON.parse(lines[0]!) as Record<string, unknown>));
  const body = [header, ...lines.slice(1, -2)];
  const end = JSON.parse(lines.at(-2)!) as Record<string, unknown>;
  const sha256 = createHash('sha256')
    .update(`${body.join('\n')}\n`)
    .digest('hex');
  return [...body, JSON.stringify({ ...end, sha256 }), ''];
}

function sameDatabase(superuserUrl: string, url: string): string {
  return databaseUrl(superuserUrl, { database: new URL(url).pathname.slice(1) });
}

/** Rows of each table, and a digest of all that is in them. */
function everyTable(
  superuserUrl: string,
): Promise<Record<string, { rows: number; digest: string }>> {
  return withClient(superuserUrl, async (client) => {
    const { rows: tables } = await client.query<{ name: string }>(
      `SELECT relname AS name FROM pg_class WHERE relnamespace = 'public'::regnamespace
         AND relkind = 'r' AND relname <> 'migrations' ORDER BY relname`,
    );
    const from = tables.map(({ name }) => [name, escapeIdentifier(name)] as const);
    const waiting = `(SELECT * FROM jobs.job WHERE state < 'completed')`;
    const found: Record<string, { rows: number; digest: string }> = {};
    for (const [name, sql] of [...from, ['waiting jobs', waiting] as const]) {
      const { rows } = await client.query<{ rows: number; digest: string }>(
        `SELECT count(*)::int AS rows, md5(string_agg(t::text, E'\\n' ORDER BY t::text)) AS digest
         FROM ${sql} AS t`,
      );
      found[name] = rows[0]!;
    }
    return found;
  });
}

function run(command: string, args: string[], env: NodeJS.ProcessEnv) {
  const { PATH, HOME } = process.env;
  return spawnSync(process.execPath, [`dist/${command}.js`, ...args], {
    env: { PATH, HOME, ...env },
    encoding: 'utf8',
  });
}
