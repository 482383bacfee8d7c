import { fork } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';

import { createApp } from '#app/create-app.js';
import { JobService } from '#app/jobs/job.service.js';
import { ApiClient } from '#app/demo/api-client.js';
import { SystemClock } from '#app/shared/clock.js';

import { statementsOf } from '../support/count-statements.js';
import {
  officeReport,
  type BenchService,
  drawBenchSite,
  median,
  quantile,
  withService,
} from './bench-service.js';

type Log = (line: string) => void;

const AT_ONCE = 50;
const ROUNDS = 8;

/** What requests cost the database, and what others wait for while locations are worked out. */
export async function benchService(log: Log): Promise<void> {
  await withService(async (service) => {
    // The children do the jobs: what is counted here is the requests' own.
    await service.app.get(JobService).beforeApplicationShutdown();
    await benchStatements(service, log);
    const url = await service.serve('app-server.js', [service.server.appUrl]);
    await benchLocation(service, url, log);
    await benchHealth(service, url, log);
  });
}

/** In a process that has just been started, and again. */
async function benchStatements({ server, token, api }: BenchService, log: Log): Promise<void> {
  const siteId = await drawBenchSite(api, 20);
  const app = await createApp({
    appUrl: server.appUrl,
    publicUrl: 'http://localhost',
    sealKey: Buffer.alloc(32),
    clock: new SystemClock(),
  });
  await app.init();
  await app.getHttpAdapter().getInstance().ready();
  await app.get(JobService).beforeApplicationShutdown();
  const own = new ApiClient(app, token);
  let ticketId = '';
  const asks = {
    report: async (time: number) => {
      const path = `/sites/${siteId}/reports`;
      const report = officeReport(1, 15 - time);
      const { tickets } = await own.post<{ tickets: { id: string }[] }>(path, report);
      ticketId = tickets[0]?.id ?? '';
    },
    location: () => own.get(`/tickets/${ticketId}/location`),
    answer: (time: number) =>
      own.post(`/tickets/${ticketId}/answers`, {
        saidBy: { name: 'Mara Quill', kind: 'office' },
        question: ['ordinary-day', 'head-end-on'][time],
        answer: 'yes',
      }),
  };
  log('Statements of a request (20 rooms by three functions), first and again:');
  for (const [name, ask] of Object.entries(asks)) {
    const counts = [];
    for (const time of [0, 1]) counts.push((await statementsOf(app, () => ask(time))).length);
    log(`  ${name.padEnd(18)} ${counts.join(', ')} (at most ${name === 'location' ? 8 : 20})`);
  }
  await app.close();
}

/** By HTTP, of 40 rooms: as kept, and after a report, beside the least that the service answers. */
async function benchLocation(service: BenchService, url: string, log: Log): Promise<void> {
  const siteId = await drawBenchSite(service.api, 40);
  const kept: number[] = [];
  const changed: number[] = [];
  const least: number[] = [];
  for (let round = 0; round < 10; round++) {
    const ticketId = await report(service, siteId, officeReport(2, 15 - (round % 5)));
    const path = `${url}/api/v1/tickets/${ticketId}/location`;
    changed.push(await timeOf(path, service.token));
    await settled(path, service.token);
    kept.push(await timeOf(path, service.token));
    least.push(await timeOf(`${url}/health/live`));
  }
  const ratio = (times: number[]) => (median(times) / median(least)).toFixed(1);
  log('The location of a ticket of 40 rooms by HTTP, against /health/live:');
  log(`  as kept            ${median(kept).toFixed(1)} ms, ${ratio(kept)} times`);
  log(`  after a report     ${median(changed).toFixed(1)} ms, ${ratio(changed)} times`);
}

/** Asked all the while that 50 people ask for a location that is to be worked out, each time after a further report. */
async function benchHealth(service: BenchService, url: string, log: Log): Promise<void> {
  const siteId = await drawBenchSite(service.api, 80);
  const pulse = startPulse(`${url}/health/live`);
  const idle = await pulse.during(new Promise((resolve) => setTimeout(resolve, 2000)));
  const busy: number[] = [];
  let refused = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const ticketId = await report(service, siteId, officeReport(4, 12 - (round % 5)));
    const path = `${url}/api/v1/tickets/${ticketId}/location`;
    const ask = async () => {
      const answer = await fetch(path, { headers: { authorization: `Bearer ${service.token}` } });
      await answer.arrayBuffer();
      // A machine that is busy with other things may be told to come again.
      if (answer.status === 503) refused++;
      else if (!answer.ok) throw new Error(`${path} answered ${answer.status}`);
    };
    busy.push(...(await pulse.during(Promise.all(Array.from({ length: AT_ONCE }, ask)))));
  }
  pulse.end();
  log(`/health/live while ${AT_ONCE} locations of 80 rooms are asked at once, ${ROUNDS} times:`);
  const of = (times: number[]) =>
    [0.5, 0.99, 1].map((part) => quantile(times, part).toFixed(1)).join(', ');
  log(`  half within, 99 of 100 within (aim: under 50), the slowest, in ms`);
  log(`  meanwhile          ${of(busy)} of ${busy.length}`);
  log(`  idle               ${of(idle)} of ${idle.length}`);
  if (refused > 0) log(`  ${refused} of ${ROUNDS * AT_ONCE} were answered 503`);
}

function startPulse(url: string) {
  const child = fork(fileURLToPath(new URL('pulse.js', import.meta.url)), [url]);
  return {
    during: async (work: Promise<unknown>): Promise<number[]> => {
      child.send('start');
      await work;
      child.send('stop');
      const [times] = (await once(child, 'message')) as [number[]];
      return times;
    },
    end: () => child.kill(),
  };
}

async function report({ api }: BenchService, siteId: string, sent: object): Promise<string> {
  type Reported = { tickets: { id: string }[] };
  const { tickets } = await api.post<Reported>(`/sites/${siteId}/reports`, sent);
  return tickets[0]?.id ?? '';
}

/** Until a job has kept it, which shows in how long it takes. */
async function settled(path: string, token: string): Promise<void> {
  for (let ask = 0; ask < 20; ask++) {
    await new Promise((resolve) => setTimeout(resolve, 100));
    if ((await timeOf(path, token)) < 20) return;
  }
}

async function timeOf(url: string, token?: string): Promise<number> {
  const headers: Record<string, string> =
    token === undefined ? {} : { authorization: `Bearer ${token}` };
  const from = performance.now();
  const answer = await fetch(url, { headers });
  await answer.arrayBuffer();
  if (!answer.ok) throw new Error(`${url} answered ${answer.status}`);
  return performance.now() - from;
}
