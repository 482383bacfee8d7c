import { type ChildProcess, spawn } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

import type { NestFastifyApplication } from '@nestjs/platform-fastify';

import { SetUpService } from '#app/access/set-up.service.js';
import { createApp } from '#app/create-app.js';
import { type BuiltInServer, startBuiltInServer } from '#app/database/built-in-server.js';
import { migrate } from '#app/database/migrate.js';
import { ApiClient } from '#app/demo/api-client.js';
import { SystemClock } from '#app/shared/clock.js';

export const FIRM_ID = '01900000-0000-7000-8000-0000000000f1';

/** An empty service of one firm, with what a benchmark asks it by. */
export interface BenchService {
  server: BuiltInServer;
  /** Of an owner, with all scopes. */
  token: string;
  api: ApiClient;
  /** In this process; its children are others. */
  app: NestFastifyApplication;
  /** Starts one of the scripts here as a process of its own; gives its address. */
  serve: (script: string, args: string[]) => Promise<string>;
  /** Of what serves there. */
  pidOf: (address: string) => number | undefined;
  /** Seconds of processor that it has used; undefined where the system does not say. */
  processorSeconds: (address: string) => number | undefined;
}

/** Runs a benchmark on a database of its own, and cleans up after it. */
export async function withService(run: (service: BenchService) => Promise<void>): Promise<void> {
  const directory = mkdtempSync(join(tmpdir(), 'lastheard-bench-'));
  const server = await startBuiltInServer({ dataDirectory: directory, log: () => undefined });
  const children: ChildProcess[] = [];
  let app: NestFastifyApplication | undefined;
  try {
    await migrate(server.ownerUrl, server.appUrl);
    app = await createApp({
      appUrl: server.appUrl,
      publicUrl: 'http://localhost',
      sealKey: randomBytes(32),
      limits: { accountPerMinute: 1e9 },
      clock: new SystemClock(),
    });
    const setUp = app.get(SetUpService);
    await setUp.ensureFirm(FIRM_ID, 'Bench firm');
    const reader = { name: 'Reader', email: 'reader@bench.example', role: 'owner' } as const;
    const personId = await setUp.addAccount(FIRM_ID, reader);
    const token = await setUp.createToken(FIRM_ID, personId, 'Bench');
    await app.init();
    await app.getHttpAdapter().getInstance().ready();
    const processes = new Map<string, number | undefined>();
    const serve = async (script: string, args: string[]) => {
      const address = await serveAs(children, script, args);
      processes.set(address, children.at(-1)?.pid);
      return address;
    };
    const pidOf = (address: string) => processes.get(address);
    const processorSeconds = (address: string) => secondsOf(pidOf(address));
    const client = new ApiClient(app, token);
    await run({ server, token, app, api: client, serve, pidOf, processorSeconds });
  } finally {
    for (const child of children) child.kill();
    await app?.close();
    await server.stop();
    rmSync(directory, { recursive: true, force: true });
  }
}

async function serveAs(children: ChildProcess[], script: string, args: string[]): Promise<string> {
  const path = fileURLToPath(new URL(script, import.meta.url));
  const env = { ...process.env, BENCH_FIRM_ID: FIRM_ID };
  const stdio: ['ignore', 'pipe', 'inherit'] = ['ignore', 'pipe', 'inherit'];
  const child = spawn(process.execPath, [path, ...args], { env, stdio });
  children.push(child);
  for await (const line of createInterface({ input: child.stdout })) return line;
  throw new Error(`${script} ended without an address`);
}

/** Of Linux alone: its fields 14 and 15 are hundredths of a second (proc_pid_stat(5)). */
function secondsOf(pid: number | undefined): number | undefined {
  try {
    const text = readFileSync(`/proc/${pid}/stat`, 'utf8');
    const fields = text.slice(text.lastIndexOf(')') + 2).split(' ');
    return (Number(fields[11]) + Number(fields[12])) / 100;
  } catch {
    return undefined;
  }
}

/** A site of so many rooms, 20 on each trunk; gives its id. */
export async function drawBenchSite(api: ApiClient, rooms: number): Promise<string> {
  const client = await api.post<{ id: string }>('/clients', { name: 'Bench client' });
  const fields = { clientId: client.id, name: `Bench site of ${rooms}`, zone: 'Etc/UTC' };
  const { id } = await api.post<{ id: string }>('/sites', fields);
  const trunks = Array.from({ length: Math.ceil(rooms / 20) }, (_, t) => ({
    trunk: `T${t + 1}`,
    nodes: Array.from({ length: 20 }, (__, n) => ({
      node: `T${t + 1}N${n + 1}`,
      cableMetres: 10,
      room: `Room ${t * 20 + n + 1}`,
    })),
  }));
  const note = { changedBy: 'Ilvo Marsh', reason: 'Drawn for the bench', headEnd: {} };
  await api.put(`/sites/${id}/as-built`, { ...note, trunks }, 0);
  return id;
}

/** What an office says of every room of the first trunks: silent from one room of each on. */
export function officeReport(trunks: number, firstSilent: number): object {
  const observations = Array.from({ length: trunks }, (_, t) =>
    Array.from({ length: 20 }, (__, n) =>
      ['announcement', 'bell', 'music'].map((name) => ({
        trunk: `T${t + 1}`,
        node: `T${t + 1}N${n + 1}`,
        function: name,
        outcome: n + 1 < firstSilent ? 'works' : 'fails',
      })),
    ).flat(),
  ).flat();
  const saidBy = { name: 'Mara Quill', kind: 'office' };
  return { id: uuidOf(), saidBy, how: 'gone-through', observations };
}

let ids = 0;

function uuidOf(): string {
  return `01900000-0000-7000-8000-${String(++ids).padStart(12, '0')}`;
}

export function median(values: number[]): number {
  return quantile(values, 0.5);
}

export function quantile(values: number[], part: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))] ?? Number.NaN;
}
