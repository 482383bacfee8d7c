import { randomBytes } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { SetUpService } from '#app/access/set-up.service.js';
import { createApp } from '#app/create-app.js';
import { startBuiltInServer } from '#app/database/built-in-server.js';
import { migrate } from '#app/database/migrate.js';
import { ApiClient } from '#app/demo/api-client.js';
import { locate } from '#app/locator/index.js';
import { SystemClock } from '#app/shared/clock.js';
import { medianMilliseconds } from './locator.bench.js';

const FIRM_ID = '01900000-0000-7000-8000-0000000000f2';
const SIZES = [500, 2000, 5000];
const REPORTS = 5;

/**
 * The office's report of sites in one row, proven by a walk test: against a bare location of the same rooms, and how long
 * somebody else waits meanwhile.
 */
export async function benchReport(log: (line: string) => void): Promise<void> {
  const directory = mkdtempSync(join(tmpdir(), 'lastheard-bench-'));
  const server = await startBuiltInServer({ dataDirectory: directory, log: () => undefined });
  await migrate(server.ownerUrl, server.appUrl);
  const app = await createApp({
    appUrl: server.appUrl,
    publicUrl: 'http://localhost',
    sealKey: randomBytes(32),
    limits: { accountPerMinute: 1e9 },
    clock: new SystemClock(),
  });
  try {
    await app.init();
    await app.getHttpAdapter().getInstance().ready();
    const setUp = app.get(SetUpService);
    await setUp.ensureFirm(FIRM_ID, 'Bench firm');
    const owner = { name: 'Owner', email: 'owner@bench.example', role: 'owner' } as const;
    const account = await setUp.addAccount(FIRM_ID, owner);
    const api = new ApiClient(app, await setUp.createToken(FIRM_ID, account, 'Bench'));
    log(
      `office reports over HTTP, rooms in a row that a walk test has proven, median of ${REPORTS}:`,
    );
    let first: number | undefined;
    for (const rooms of SIZES) {
      const siteId = await provenSite(api, account, rooms);
      const { report, longestWait } = await timeReports(api, siteId, rooms);
      const bare = medianMilliseconds(3, () => locate(bareRequest(rooms)));
      first ??= report;
      log(
        `  ${String(rooms).padStart(5)} rooms  ${report.toFixed(0)} ms, ${(report / bare).toFixed(1)} times a bare location, ` +
          `${(report / first).toFixed(1)} times that of ${SIZES[0]} rooms; ` +
          `others waited ${longestWait.toFixed(0)} ms at most`,
      );
    }
  } finally {
    await app.close();
    await server.stop();
    rmSync(directory, { recursive: true, force: true });
  }
}

const nodesInRow = (rooms: number) =>
  Array.from({ length: rooms }, (_, i) => ({
    node: `A${i + 1}`,
    cableMetres: 10,
    room: `Room ${i + 1}`,
  }));

async function provenSite(api: ApiClient, technicianId: string, rooms: number): Promise<string> {
  const client = await api.post<{ id: string }>('/clients', { name: `Client of ${rooms}` });
  const fields = { clientId: client.id, name: `${rooms} rooms`, zone: 'Etc/UTC' };
  const { id: siteId } = await api.post<{ id: string }>('/sites', fields);
  const trunks = [{ trunk: 'A', nodes: nodesInRow(rooms) }];
  const drawn = { changedBy: 'Bench', reason: 'First drawing', headEnd: {}, trunks };
  await api.put(`/sites/${siteId}/as-built`, drawn, 0);
  const today = new Date().toISOString().slice(0, 10);
  const visit = await api.post<{ id: string }>('/visits', {
    siteId,
    kind: 'planned',
    on: today,
    purpose: 'Upkeep',
    upkeep: true,
    technicianId,
  });
  await api.post(`/visits/${visit.id}/moves`, { to: 'under-way', by: 'Owner' });
  const observations = nodesInRow(rooms).map(({ node }) => {
    return { trunk: 'A', node, function: 'announcement', outcome: 'works' };
  });
  await api.post(`/visits/${visit.id}/walk-tests`, { testedBy: 'Owner', observations });
  return siteId;
}

/** One report after the other, while somebody asks for a page ten times a second. */
async function timeReports(api: ApiClient, siteId: string, rooms: number) {
  const times: number[] = [];
  const waits: number[] = [];
  for (let r = 0; r < REPORTS; r++) {
    let isDone = false;
    const others = (async () => {
      while (!isDone) {
        const start = performance.now();
        await api.get(`/sites/${siteId}`);
        waits.push(performance.now() - start);
        await new Promise((resolve) => setTimeout(resolve, 100));
      }
    })();
    const start = performance.now();
    await api.post(`/sites/${siteId}/reports`, {
      saidBy: { name: 'Mara Quill', kind: 'office' },
      how: 'gone-through',
      observations: toldOf(rooms, r),
    });
    times.push(performance.now() - start);
    isDone = true;
    await others;
  }
  times.sort((a, b) => a - b);
  return { report: times[Math.floor(REPORTS / 2)] ?? NaN, longestWait: Math.max(...waits) };
}

function toldOf(rooms: number, more: number) {
  const border = Math.floor(rooms * 0.6) + more;
  return [border - 1, border, rooms].map((room) => ({
    trunk: 'A',
    node: `A${room}`,
    function: 'announcement',
    outcome: room < border ? 'works' : 'fails',
  }));
}

function bareRequest(rooms: number) {
  return {
    trunks: [
      {
        id: 'A',
        nodes: nodesInRow(rooms).map(({ node, cableMetres }) => ({
          id: node,
          kind: 'station',
          cableMetres,
        })),
      },
    ],
    exposureDays: 91,
    observations: toldOf(rooms, 0),
    explanations: 0,
  };
}
