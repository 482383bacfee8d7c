import { cpus, loadavg } from 'node:os';

import autocannon from 'autocannon';

import { median, withService } from './bench-service.js';

const ROUNDS = 5;
const SECONDS = 3;
const CONNECTIONS = 20;

/** Reads of one row through the API against bare Fastify + pg handlers for it, turn by turn. */
export async function benchApi(log: (line: string) => void): Promise<void> {
  await withService(async ({ server, token, api, serve }) => {
    const client = await api.post<{ id: string }>('/clients', { name: 'Bench client' });
    const fields = { clientId: client.id, name: 'Bench site', zone: 'Etc/UTC' };
    const { id: siteId } = await api.post<{ id: string }>('/sites', fields);
    const bare = await serve('bare-server.js', [server.appUrl, siteId]);
    const prepared = await serve('bare-server.js', [server.appUrl, siteId, 'prepared']);
    const app = await serve('app-server.js', [server.appUrl]);
    const second = await serve('app-server.js', [server.appUrl]);
    // The whole guard stands in front: who asks, their role and scope, their firm.
    const headers = { authorization: `Bearer ${token}` };
    const path = `/api/v1/sites/${siteId}`;
    const asks = {
      bare: () => rate(`${bare}/site`),
      prepared: () => rate(`${prepared}/site`),
      app: () => rate(`${app}${path}`, headers),
      two: async () => {
        const half = CONNECTIONS / 2;
        const both = [app, second].map((one) => rate(`${one}${path}`, headers, half));
        return (await Promise.all(both)).reduce((sum, one) => sum + one, 0);
      },
    };
    for (const ask of Object.values(asks)) await ask();
    const rounds: Round[] = [];
    for (let round = 0; round < ROUNDS; round++) {
      rounds.push({
        bare: await asks.bare(),
        prepared: await asks.prepared(),
        app: await asks.app(),
        two: await asks.two(),
      });
    }
    report(rounds, log);
  });
}

/** Processors that were kept busy by asking, of each measurement. */
const loads: number[] = [];

interface Round {
  bare: number;
  prepared: number;
  app: number;
  /** Two processes of the app at once, each with half of the connections. */
  two: number;
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
    `  ratio              ${medianOf(({ app, bare }) => app / bare).toFixed(2)} (aim: at least 0.60)`,
  );
  const ofPrepared = medianOf(({ app, prepared }) => app / prepared).toFixed(2);
  log(`  ratio to prepared  ${ofPrepared} (aim: at least 0.45)`);
  const ofOne = medianOf(({ two, app }) => two / app).toFixed(2);
  log(`  two processes      ${perSecond('two')} a second, ${ofOne} of one (aim: at least 1.80)`);
  const [busy] = loadavg();
  log(
    `  on ${cpus().length} processors, of which this load generator takes ${median(loads).toFixed(2)}, PostgreSQL its ` +
      `share, and everything on the machine wanted ${busy?.toFixed(1)} (more than there are: ratios are too low)`,
  );
}

/** Answers a second; anything but 200 fails the benchmark. */
async function rate(url: string, headers = {}, connections = CONNECTIONS): Promise<number> {
  const before = process.cpuUsage();
  const result = await autocannon({ url, headers, connections, duration: SECONDS });
  const { user, system } = process.cpuUsage(before);
  loads.push((user + system) / 1e6 / SECONDS);
  if (result.non2xx > 0 || result.errors > 0) throw new Error(`${url} did not answer every time`);
  return result.requests.average;
}
