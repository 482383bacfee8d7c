import { type ChildProcess, spawn } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

import autocannon from 'autocannon';

import { SetUpService } from '#app/access/set-up.service.js';
import { createApp } from '#app/create-app.js';
import { startBuiltInServer } from '#app/database/built-in-server.js';
import { migrate } from '#app/database/migrate.js';
import { ApiClient } from '#app/demo/api-client.js';
import { SystemClock } from '#app/shared/clock.js';

const FIRM_ID = '01900000-0000-7000-8000-0000000000f1';
const ROUNDS = 5;
const SECONDS = 3;
const CONNECTIONS = 20;

/** Reads of one row through the API against bare Fastify + pg handlers for it, turn by turn. */
export async function benchApi(log: (line: string) => void): Promise<void> {
  const directory = mkdtempSync(join(tmpdir(), 'lastheard-bench-'));
  const server = await startBuiltInServer({ dataDirectory: directory, log: () => undefined });
  const children: ChildProcess[] = [];
  try {
    const { siteId, token } = await prepare(server.ownerUrl, server.appUrl);
    const bare = await serve(children, 'bare-server.js', [server.appUrl, siteId]);
    const prepared = await serve(children, 'bare-server.js', [server.appUrl, siteId, 'prepared']);
    const app = await serve(children, 'app-server.js', [server.appUrl]);
    // The whole guard stands in front: who asks, their role and scope, their firm.
    const headers = { authorization: `Bearer ${token}` };
    const asks = {
      bare: () => rate(`${bare}/site`),
      prepared: () => rate(`${prepared}/site`),
      app: () => rate(`${app}/api/v1/sites/${siteId}`, headers),
    };
    for (const ask of Object.values(asks)) await ask();
    const rounds: Round[] = [];
    for (let round = 0; round < ROUNDS; round++) {
      rounds.push({
        bare: await asks.bare(),
        prepared: await asks.prepared(),
        app: await asks.app(),
      });
    }
    report(rounds, log);
  } finally {
    for (const child of children) child.kill();
    await server.stop();
    rmSync(directory, { recursive: true, force: true });
  }
}

interface Round {
  bare: number;
  prepared: number;
  app: number;
}

function report(rounds: Round[], log: (line: string) => void): void {
  const medianOf = (read: (round: Round) => number) => median(rounds.map(read));
  const perSecond = (name: keyof Round) => medianOf((round) => round[name]).toFixed(0);
  log(
    `Reads of one site, ${CONNECTIONS} connections, ${ROUNDS} rounds of ${SECONDS} s each, in turn:`,
  );
  log(`  bare Fastify + pg  ${perSecond('bare')} a second`);
  log(`  the same, prepared ${perSecond('prepared')} a second`);
  log(`  through the API    ${perSecond('app')} a second`);
  log(
    `  ratio              ${medianOf(({ app, bare }) => app / bare).toFixed(2)} (aim: at least 0.50)`,
  );
  const ofPrepared = medianOf(({ app, prepared }) => app / prepared).toFixed(2);
  log(`  ratio to prepared  ${ofPrepared}`);
}

async function prepare(
  ownerUrl: string,
  appUrl: string,
): Promise<{ siteId: string; token: string }> {
  await migrate(ownerUrl, appUrl);
  const app = await createApp({
    appUrl,
    publicUrl: 'http://localhost',
    sealKey: randomBytes(32),
    clock: new SystemClock(),
  });
  try {
    const setUp = app.get(SetUpService);
    await setUp.ensureFirm(FIRM_ID, 'Bench firm');
    const reader = { name: 'Reader', email: 'reader@bench.example', role: 'owner' } as const;
    const token = await setUp.createToken(
      FIRM_ID,
      await setUp.addAccount(FIRM_ID, reader),
      'Bench',
    );
    await app.init();
    const api = new ApiClient(app, token);
    const client = await api.post<{ id: string }>('/clients', { name: 'Bench client' });
    const fields = { clientId: client.id, name: 'Bench site', zone: 'Etc/UTC' };
    const site = await api.post<{ id: string }>('/sites', fields);
    return { siteId: site.id, token };
  } finally {
    await app.close();
  }
}

async function serve(children: ChildProcess[], script: string, args: string[]): Promise<string> {
  const path = fileURLToPath(new URL(script, import.meta.url));
  const env = { ...process.env, BENCH_FIRM_ID: FIRM_ID };
  const stdio: ['ignore', 'pipe', 'inherit'] = ['ignore', 'pipe', 'inherit'];
  const child = spawn(process.execPath, [path, ...args], { env, stdio });
  children.push(child);
  for await (const line of createInterface({ input: child.stdout })) return line;
  throw new Error(`${script} ended without an address`);
}

/** Answers a second; anything but 200 fails the benchmark. */
async function rate(url: string, headers = {}): Promise<number> {
  const result = await autocannon({ url, headers, connections: CONNECTIONS, duration: SECONDS });
  if (result.non2xx > 0 || result.errors > 0) throw new Error(`${url} did not answer every time`);
  return result.requests.average;
}

function median(values: number[]): number {
  return values.sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
}
