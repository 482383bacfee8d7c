import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';

import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import supertest from 'supertest';
import { uuidv7 } from 'uuidv7';

import { SetUpService } from '#app/access/set-up.service.js';
import { readConfig } from '#app/config.js';
import { createApp } from '#app/create-app.js';
import { SystemClock } from '#app/shared/clock.js';

import { type ClonedDatabase, cloneDatabase } from './support/clone-database.js';
import { drawSite, row } from './support/draw-site.js';
import { type Agent, SEAL_KEY } from './support/test-app.js';
import { cases } from './support/thorough.js';

const AS_BEARER = { type: 'bearer' } as const;

const REPORTS = cases({ all: 45, usual: 9 });
const ROUNDS = cases({ all: 2, usual: 1 });

describe('a server that is killed in the middle of requests', () => {
  let database: ClonedDatabase;
  let child: ChildProcess | undefined;

  beforeAll(async () => {
    database = await cloneDatabase();
  });

  afterAll(async () => {
    child?.kill('SIGKILL');
    await database.drop();
  });

  /** The real main, on a port that it picks; asked as the owner, by a token made beside it. */
  async function startServer(): Promise<Agent> {
    const { appUrl, ownerUrl } = database;
    const started = spawn(process.execPath, ['dist/main.js'], {
      env: {
        PORT: '0',
        DATABASE_URL: appUrl,
        MIGRATION_DATABASE_URL: ownerUrl,
        SEAL_KEY: SEAL_KEY.toString('base64'),
      },
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    child = started;
    const address = await new Promise<string | undefined>((resolve) => {
      // Its log is read to the end: a full pipe would hold the server up.
      let log = '';
      started.stdout.setEncoding('utf8').on('data', (part: string) => {
        log += part;
        const served = /serves on (\S+)/.exec(log)?.[1];
        if (served !== undefined) resolve(served);
      });
      started.once('exit', () => resolve(undefined));
    });
    if (address !== undefined) return supertest.agent(address).auth(await tokenOf(), AS_BEARER);
    throw new Error('the server ended before it served');
  }

  let token: string | undefined;

  async function tokenOf(): Promise<string> {
    if (token !== undefined) return token;
    const { appUrl } = database;
    const publicUrl = 'http://localhost';
    const app = await createApp({ appUrl, publicUrl, sealKey: SEAL_KEY, clock: new SystemClock() });
    const setUp = app.get(SetUpService);
    const owner = { name: 'Owner', email: 'owner@firm.example', role: 'owner' } as const;
    const { id } = readConfig({}).firm;
    token = await setUp.createToken(id, await setUp.addAccount(id, owner), 'Test');
    await app.close();
    return token;
  }

  async function killServer(): Promise<void> {
    const ended = once(child!, 'exit');
    child!.kill('SIGKILL');
    await ended;
  }

  it('loses no acknowledged report, keeps no half one, and takes the rest when sent again', async () => {
    let http = await startServer();
    // Where the machine is busy all may be answered by the time of the kill: such a round shows nothing, and another is made.
    for (let cut = 0; cut < ROUNDS;) {
      const siteId = await drawSite({ http }, [row('A', 3)]);
      const reports = Array.from({ length: REPORTS }, (_, index) => ({
        id: uuidv7(),
        saidBy: { name: `Caller ${index}`, kind: 'office' },
        how: 'volunteered',
        observations: [2, 3].map((room) => ({
          trunk: 'A',
          node: `A${room}`,
          function: 'announcement',
          outcome: 'fails',
        })),
      }));
      const send = (report: object) => http.post(`/api/v1/sites/${siteId}/reports`).send(report);
      const acknowledged = new Set<string>();
      // Killed when a third is acknowledged: others are under way or not even begun.
      let killed: Promise<void> | undefined;
      await Promise.all(
        reports.map(async (report) => {
          // Where the machine is slow some wait in vain for the site's lock, and come again as they are told.
          let answer = await send(report).catch(() => undefined);
          while (answer?.status === 503) answer = await send(report).catch(() => undefined);
          if (answer?.status === 201) acknowledged.add(report.id);
          if (acknowledged.size >= REPORTS / 3) killed ??= killServer();
        }),
      );
      await killed;
      expect(acknowledged.size).toBeGreaterThanOrEqual(REPORTS / 3);
      if (acknowledged.size < REPORTS) cut++;

      http = await startServer();
      const { body: list } = await http.get(`/api/v1/tickets?site=${siteId}`).expect(200);
      expect(list.items).toHaveLength(1);
      const path = `/api/v1/tickets/${list.items[0].id}`;
      const kept = await entryIds(http, path);
      expect([...acknowledged].filter((id) => !kept.has(id))).toEqual([]);
      const { body: heard } = await http.get(`${path}/observations`).expect(200);
      expect(heard.items).toHaveLength(2 * kept.size);

      for (const report of reports) await send(report).expect(201);
      expect(await entryIds(http, path)).toEqual(new Set(reports.map(({ id }) => id)));
    }
  });

  async function entryIds(http: Agent, path: string): Promise<Set<string>> {
    const { body } = await http.get(`${path}/log?limit=200`).expect(200);
    return new Set(body.items.map(({ id }: { id: string }) => id));
  }
});
