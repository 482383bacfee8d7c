import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import {
  existsSync,
  chownSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';

import { afterAll, afterEach, describe, expect, it } from '@jest/globals';
import { Client } from 'pg';

import { APP_ROLE, OWNER_ROLE, withClient } from '#app/database/built-in-roles.js';
import { BuiltInServer, startBuiltInServer } from '#app/database/built-in-server.js';

import { AppProcess } from './support/app-process.js';
import {
  pidFile,
  processName,
  processState,
  processesIn,
  serverPid,
} from './support/server-processes.js';
import { tried } from './support/thorough.js';
import { throwAwayDirectory } from './support/throw-away-directory.js';

// They look into /proc, and at accounts as Linux has them.
const describeOnLinux = process.platform === 'linux' ? describe : describe.skip;

const directories: string[] = [];
/** One data directory for most tests, each of which finds it as the one before left it: stopped. */
const home = newDirectory();
const log: string[] = [];
const running: BuiltInServer[] = [];
const apps: AppProcess[] = [];

function newDirectory(): string {
  const directory = throwAwayDirectory(tmpdir());
  directories.push(directory);
  return directory;
}

async function start(dataDirectory = home): Promise<BuiltInServer> {
  const server = await startBuiltInServer({ dataDirectory, log: (line) => log.push(line) });
  running.push(server);
  return server;
}

function startApp(...args: ConstructorParameters<typeof AppProcess>): AppProcess {
  const app = new AppProcess(...args);
  apps.push(app);
  return app;
}

async function rowsOf<Row extends object>(url: string, sql: string): Promise<Row[]> {
  return withClient(url, async (client) => (await client.query<Row>(sql)).rows);
}

async function killServer(dataDirectory = home): Promise<void> {
  process.kill(serverPid(dataDirectory), 'SIGKILL');
  while (processState(serverPid(dataDirectory)).match(/^[^Z]/)) await delay(5);
}

afterEach(async () => {
  for (const server of running.splice(0)) await server.stop();
  for (const app of apps.splice(0)) await app.kill();
  log.splice(0);
});

afterAll(() => {
  for (const directory of directories) {
    // There are none unless a test failed half-way.
    for (const pid of processesIn(directory)) process.kill(pid, 'SIGKILL');
    rmSync(directory, { recursive: true, force: true });
  }
});

describeOnLinux('the first start', () => {
  it('makes the database, with settings that keep data and let only this machine in', async () => {
    const server = await start();
    expect(log[0]).toContain(`Creating the built-in database in ${home}`);
    const [settings] = await rowsOf(
      server.superuserUrl,
      `select current_setting('fsync') as fsync, current_setting('synchronous_commit') as commit,
              current_setting('listen_addresses') as addresses,
              current_setting('unix_socket_directories') as sockets`,
    );
    expect(settings).toEqual({ fsync: 'on', commit: 'on', addresses: '127.0.0.1', sockets: '' });
    const [seenByTheApp] = await rowsOf(
      server.appUrl,
      `select datname as database, current_setting('timezone') as zone,
              current_setting('server_encoding') as encoding,
              datlocprovider::text as provider, datlocale as locale,
              (select array_agg(word order by word)
                 from (values ('a'), ('B'), ('é'), ('z')) as _ (word)) as ordered
         from pg_database where datname = current_database()`,
    );
    expect(seenByTheApp).toEqual({
      database: 'lastheard',
      zone: 'UTC',
      encoding: 'UTF8',
      provider: 'b',
      locale: 'C.UTF-8',
      ordered: ['B', 'a', 'z', 'é'],
    });
    expect(statSync(join(home, 'server', 'passwords.json')).mode & 0o777).toBe(0o600);
    expect(statSync(join(home, 'server')).mode & 0o777).toBe(0o700);
    expect(readdirSync(home)).toEqual(['server']);
    const wrong = new URL(server.appUrl);
    wrong.password = 'guess';
    await expect(rowsOf(wrong.href, 'select')).rejects.toThrow('password authentication failed');
  });

  it('gives the app a role that row-level security binds', async () => {
    const server = await start();
    const roles = await rowsOf(
      server.superuserUrl,
      `select rolname as name, rolsuper or rolbypassrls or rolcreaterole or rolcreatedb or rolreplication as mighty
         from pg_roles where rolname in ('${OWNER_ROLE}', '${APP_ROLE}') order by 1`,
    );
    expect(roles).toEqual([
      { name: APP_ROLE, mighty: false },
      { name: OWNER_ROLE, mighty: false },
    ]);
    await withClient(server.ownerUrl, async (client) => {
      await client.query(`
        create table bells (firm_id int, name text);
        insert into bells values (1, 'ours'), (2, 'theirs');
        alter table bells enable row level security, force row level security;
        create policy own_firm on bells using (firm_id = current_setting('app.firm_id')::int);`);
    });
    for (const url of [server.appUrl, server.ownerUrl]) {
      const seen = `set app.firm_id = 1; select name from bells`;
      const results = (await withClient(url, (client) => client.query(seen))) as unknown as {
        rows: object[];
      }[];
      expect(results[1]!.rows).toEqual([{ name: 'ours' }]);
    }
    await withClient(server.appUrl, async (client) => {
      await client.query('set app.firm_id = 1');
      await expect(client.query('set row_security = off; select from bells')).rejects.toThrow(
        'row-level security',
      );
      await client.query('set row_security = on');
      await client.query("insert into bells values (1, 'new')");
      await client.query("update bells set name = 'newer' where name = 'new'");
      expect((await client.query("delete from bells where name = 'newer'")).rowCount).toBe(1);
      await expect(client.query("insert into bells values (2, 'x')")).rejects.toThrow('policy');
      await expect(client.query('create table sneaked ()')).rejects.toThrow('permission denied');
      await expect(client.query('alter table bells disable row level security')).rejects.toThrow(
        'must be owner',
      );
      await expect(client.query(`set role ${OWNER_ROLE}`)).rejects.toThrow('permission denied');
      await expect(client.query('create database sneaked')).rejects.toThrow('permission denied');
    });
  });

  it('of three processes at once makes one server, which they share', async () => {
    const shared = newDirectory();
    const three = [1, 2, 3].map(() => startApp(shared));
    const answers = await Promise.all(three.map((app) => app.nextAnswer()));
    expect(answers.map(({ failure }) => failure)).toEqual([undefined, undefined, undefined]);
    expect(new Set(answers.map(({ appUrl }) => appUrl)).size).toBe(1);
    const started = answers.filter(({ lines }) =>
      lines!.some((line) => line.startsWith('Started')),
    );
    expect(started).toHaveLength(1);
    expect(readdirSync(shared)).toEqual(['server']);
    for (const app of three) app.interruptGroup();
    const ends = await Promise.all(three.map((app) => app.nextAnswer()));
    const stopped = ends.filter(({ lines }) => lines!.at(-1)!.startsWith('Stopped'));
    expect(stopped).toHaveLength(1);
    expect(processesIn(shared)).toEqual([]);
  });

  it('clears away what a process that was killed had begun to create', async () => {
    const { pid } = spawn('true');
    const abandoned = join(home, `creating-${pid}-0badcafe`);
    const busy = join(home, `creating-${process.pid}-0badcafe`);
    while (processState(pid!) !== '') await delay(5);
    mkdirSync(join(abandoned, 'server'), { recursive: true });
    mkdirSync(busy);
    await start();
    expect(readdirSync(home).sort()).toEqual([`creating-${process.pid}-0badcafe`, 'server']);
    rmSync(busy, { recursive: true });
  });
});

describeOnLinux('starting and stopping', () => {
  it('attaches to a running server, and the last to go stops it, leaving no process', async () => {
    const first = await start();
    const pid = serverPid(home);
    expect(processesIn(home)).toContain(pid);
    const second = await start();
    expect(serverPid(home)).toBe(pid);
    expect(second.appUrl).toBe(first.appUrl);
    await first.stop();
    expect(log.at(-1)).toContain('Left the built-in database server running');
    expect(await rowsOf(second.appUrl, 'select 1 as one')).toEqual([{ one: 1 }]);
    await second.stop();
    expect(log.at(-1)).toBe('Stopped the built-in database server.');
    expect(processesIn(home)).toEqual([]);
    expect(existsSync(pidFile(home))).toBe(false);
    await second.stop();
  });

  it('stops it although clients are connected and busy', async () => {
    const server = await start();
    const client = new Client({ connectionString: server.appUrl });
    client.on('error', () => undefined);
    await client.connect();
    const cut = expect(client.query('select pg_sleep(60)')).rejects.toThrow(
      'terminating connection',
    );
    await server.stop();
    await cut;
    expect(processesIn(home)).toEqual([]);
  });

  it('keeps running through Ctrl-C in the terminal until the app has drained', async () => {
    const app = startApp(home);
    await app.nextAnswer();
    app.interruptGroup();
    const { answer, lines } = await app.nextAnswer();
    expect(answer).toBe(42);
    expect(lines!.at(-1)).toBe('Stopped the built-in database server.');
    await app.ended();
    expect(processesIn(home)).toEqual([]);
  });

  it('attaches to the server that a killed app left behind, finds the data, and can stop it', async () => {
    const app = startApp(home);
    const { ownerUrl } = await app.nextAnswer();
    await rowsOf(ownerUrl!, 'create table left_behind as select 7 as number');
    const pid = serverPid(home);
    await app.kill();
    expect(processesIn(home)).toContain(pid);
    const server = await start();
    expect(serverPid(home)).toBe(pid);
    expect(await rowsOf(server.ownerUrl, 'select number from left_behind')).toEqual([
      { number: 7 },
    ]);
    await server.stop();
    expect(processesIn(home)).toEqual([]);
  });

  it('stops a server that dropped every connection because one of its processes crashed', async () => {
    const server = await start();
    const pid = serverPid(home);
    const victim = processesIn(home).find((each) => each !== pid)!;
    process.kill(victim, 'SIGKILL');
    const isBack = () =>
      rowsOf(server.appUrl, 'select 1').then(
        () => true,
        () => false,
      );
    while (processState(victim) !== '' || !(await isBack())) await delay(10);
    await server.stop();
    expect(processesIn(home)).toEqual([]);
  });

  it('leaves a successor alone that another process started after a crash', async () => {
    const old = await start();
    await killServer();
    const successor = await start();
    const pid = serverPid(home);
    await old.stop();
    expect(serverPid(home)).toBe(pid);
    expect(await rowsOf(successor.appUrl, 'select 1 as one')).toEqual([{ one: 1 }]);
  });
});

describeOnLinux('after a crash', () => {
  it('has every row that was acknowledged before kill -9, over and over', async () => {
    let acknowledged = 0;
    const first = await start();
    await rowsOf(first.ownerUrl, 'create table acknowledged (number int primary key)');
    await first.stop();
    for (const killAfter of tried([1, 40, 3, 150, 75], 3)) {
      const server = await start();
      const stopAt = acknowledged + killAfter;
      await withClient(server.appUrl, async (client) => {
        for (;;) {
          await client.query('insert into acknowledged values ($1)', [acknowledged + 1]);
          acknowledged += 1;
          // The next insert is on its way when the server dies.
          if (acknowledged === stopAt) process.kill(serverPid(home), 'SIGKILL');
        }
      }).catch(() => undefined);
      const again = await start();
      const rows = await rowsOf<{ number: number }>(
        again.appUrl,
        'select number from acknowledged order by number',
      );
      // One more than acknowledged may be there: written, the answer lost.
      const numbers = rows.map(({ number }) => number);
      expect(numbers.slice(0, acknowledged)).toEqual(
        Array.from({ length: acknowledged }, (_, index) => index + 1),
      );
      expect(numbers.length).toBeLessThanOrEqual(acknowledged + 1);
      expect(acknowledged).toBeGreaterThanOrEqual(stopAt);
      acknowledged = numbers.length;
      await again.stop();
    }
  });

  it('waits for a process of the dead server that has not noticed yet', async () => {
    const server = await start();
    const client = new Client({ connectionString: server.appUrl });
    client.on('error', () => undefined);
    await client.connect();
    const { rows } = await client.query<{ pid: number }>('select pg_backend_pid() as pid');
    const timesSaid = () =>
      readFileSync(join(home, 'server', 'server.log'), 'utf8').split('is still in use').length;
    const before = timesSaid();
    // It notices nothing until it was waited for, however long the machine takes.
    process.kill(rows[0]!.pid, 'SIGSTOP');
    await killServer();
    let isThere = false;
    const again = start().finally(() => (isThere = true));
    while (!isThere && timesSaid() === before) await delay(5);
    process.kill(rows[0]!.pid, 'SIGCONT');
    expect(isThere).toBe(false);
    expect(await rowsOf((await again).appUrl, 'select 1 as one')).toEqual([{ one: 1 }]);
  });

  it('of two processes at once starts one server', async () => {
    const app = startApp(home);
    await app.nextAnswer();
    await killServer();
    await app.kill();
    const answers = await Promise.all([startApp(home), startApp(home)].map((a) => a.nextAnswer()));
    expect(answers[0]!.appUrl).toBe(answers[1]!.appUrl);
    expect(answers[0]!.appUrl).toBeDefined();
    expect((await start()).appUrl).toBe(answers[0]!.appUrl);
    for (const each of apps.splice(0)) await each.kill();
  });

  it('starts although postmaster.pid names a zombie', async () => {
    // The shell becomes a program that never asks after the child which the shell had begun.
    const parent = spawn('sh', ['-c', 'sleep 60 & echo $!; exec sleep 60'], {
      stdio: ['ignore', 'pipe', 'ignore'],
    });
    const [printed] = (await once(parent.stdout, 'data')) as [Buffer];
    const zombie = Number(printed.toString());
    while (processName(parent.pid!) !== 'sleep') await delay(5);
    process.kill(zombie, 'SIGKILL');
    while (processState(zombie) !== 'Z') await delay(5);
    await expectStartWithPidFileOf(zombie);
    expect(processState(zombie)).toBe('Z');
    parent.kill('SIGKILL');
  });

  it('starts although postmaster.pid names another program that got the number', async () => {
    await expectStartWithPidFileOf(process.pid);
    const other = spawn('sleep', ['60']);
    await expectStartWithPidFileOf(other.pid!);
    expect(processState(other.pid!)).toBe('S');
    other.kill('SIGKILL');
  });

  it('starts although a power cut left postmaster.pid empty', async () => {
    writeFileSync(pidFile(home), '');
    utimesSync(pidFile(home), new Date(0), new Date(0));
    const server = await start();
    expect(await rowsOf(server.appUrl, 'select 1 as one')).toEqual([{ one: 1 }]);
  });

  async function expectStartWithPidFileOf(pid: number): Promise<void> {
    const crashed = await start();
    await killServer();
    const lines = readFileSync(pidFile(home), 'utf8').split('\n');
    writeFileSync(pidFile(home), [pid, ...lines.slice(1)].join('\n'));
    const server = await start();
    expect(serverPid(home)).not.toBe(pid);
    expect(await rowsOf(server.appUrl, 'select 1 as one')).toEqual([{ one: 1 }]);
    await server.stop();
    await crashed.stop();
  }
});

describeOnLinux('refusals', () => {
  it('of data of another major version, untouched', async () => {
    const version = join(home, 'server', 'data', 'PG_VERSION');
    const own = readFileSync(version, 'utf8');
    writeFileSync(version, '15\n');
    const refusal = start();
    await expect(refusal).rejects.toMatchObject({ reason: 'other-major' });
    await expect(refusal).rejects.toThrow(
      'is of PostgreSQL 15, the built-in server is PostgreSQL 18',
    );
    writeFileSync(version, own);
    await start();
  });

  it('of a configuration it cannot start with, quoting the log', async () => {
    const configuration = join(home, 'server', 'data', 'postgresql.conf');
    const own = readFileSync(configuration, 'utf8');
    writeFileSync(configuration, `${own}\nno_such_setting = 1\n`);
    const refusal = start();
    await expect(refusal).rejects.toMatchObject({ reason: 'did-not-start' });
    await expect(refusal).rejects.toThrow('no_such_setting');
    expect(processesIn(home)).toEqual([]);
    writeFileSync(configuration, own);
    await start();
  });
});

describeOnLinux('the account that PostgreSQL runs under', () => {
  const NOBODY = 65534;
  const isRoot = process.getuid?.() === 0;
  const asNobody = { uid: NOBODY, gid: NOBODY };
  const withoutNamespaces = { env: { ...process.env, PATH: '/nonexistent' } };
  // In a checkout under /root, say, no other account can run anything.
  const isOpenToOthers = isRoot && canReach(asNobody, fileURLToPath(import.meta.url));
  const itAsRoot = isRoot ? it : it.skip;
  const itWithOthers = isOpenToOthers ? it : it.skip;

  itWithOthers('is the user’s own, when an ordinary user starts it', async () => {
    const directory = newDirectory();
    mkdirSync(directory);
    chownSync(directory, NOBODY, NOBODY);
    const app = startApp(directory, asNobody);
    expect(await app.nextAnswer()).toHaveProperty('appUrl');
    expect(accountOf(serverPid(directory))).toBe(NOBODY);
    app.interruptGroup();
    expect((await app.nextAnswer()).answer).toBe(42);
    expect(processesIn(directory)).toEqual([]);
  });

  itWithOthers('is another one, for root without user namespaces, and stays it', async () => {
    const directory = newDirectory();
    for (const options of [withoutNamespaces, {}]) {
      const app = startApp(directory, options);
      expect(await app.nextAnswer()).toHaveProperty('appUrl');
      expect(accountOf(serverPid(directory))).toBe(NOBODY);
      expect(statSync(join(directory, 'server', 'passwords.json')).uid).toBe(NOBODY);
      app.interruptGroup();
      expect((await app.nextAnswer()).answer).toBe(42);
      expect(processesIn(directory)).toEqual([]);
    }
  });

  itWithOthers('must be the owner of the data', async () => {
    const stranger = { uid: NOBODY - 1, gid: NOBODY - 1 };
    const answer = await startApp(home, stranger).nextAnswer();
    expect(answer.reason).toBe('not-writable');
    expect(answer.failure).toContain(`may not use the data directory ${home}`);
  });

  itAsRoot('is refused clearly, where root’s own data cannot be served', async () => {
    const directory = newDirectory();
    mkdirSync(join(directory, 'server'), { recursive: true });
    const answer = await startApp(directory, withoutNamespaces).nextAnswer();
    expect(answer.reason).toBe('no-account');
    expect(answer.failure).toContain('PostgreSQL refuses to run as root');
  });

  function accountOf(pid: number): number {
    return statSync(`/proc/${pid}`).uid;
  }

  function canReach(account: { uid: number; gid: number }, file: string): boolean {
    return spawnSync(process.execPath, ['--check', file], account).status === 0;
  }
});
