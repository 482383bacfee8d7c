import { cpus, loadavg } from 'node:os';

import autocannon from 'autocannon';

import { median, withService } from './bench-service.js';
import { ProcessorShares } from './processor-shares.js';

const ROUNDS = 5;
const SECONDS = 3;
const CONNECTIONS = 20;

/** Of a processor, for each process: what asks, and the database, then have room to spare on a machine of two. */
const SHARE = 0.25;

/** Reads of one row through the API against bare Fastify + pg handlers for it, turn by turn. */
export async function benchApi(log: (line: string) => void): Promise<void> {
  await withService(async ({ server, token, api, serve, pidOf, processorSeconds }) => {
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
    // As many connections for each process: of half as many fewer share a packet to the database, and each costs more.
    const ask = async (addresses: string[], of: string, sent = {}): Promise<Asked> => {
      const used = () =>
        addresses.reduce((sum, one) => sum + (processorSeconds(one) ?? Number.NaN), 0);
      const before = used();
      const each = addresses.map((one) => rate(`${one}${of}`, sent));
      const perSecond = (await Promise.all(each)).reduce((sum, one) => sum + one, 0);
      return { perSecond, microseconds: ((used() - before) / perSecond / SECONDS) * 1e6 };
    };
    const asks = {
      bare: () => ask([bare], '/site'),
      prepared: () => ask([prepared], '/site'),
      app: () => ask([app], path, headers),
      two: () => ask([app, second], path, headers),
    };
    for (const one of Object.values(asks)) await one();
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
    const skipped = await ProcessorShares.within(async (shares) => {
      for (const address of [app, second]) shares.give(pidOf(address) ?? NaN, SHARE);
      const askAll = (addresses: string[]) => ask(addresses, path, headers);
      await askAll([app, second]);
      const shared: SharedRound[] = [];
      for (let round = 0; round < ROUNDS; round++)
        shared.push({
          one: await askAll([app]),
          two: await askAll([app, second]),
          other: await askAll([second]),
        });
      reportShared(shared, log);
    });
    if (skipped !== undefined) log(`  a quarter of a processor for each: not measured, ${skipped}`);
  });
}

/** Processors that were kept busy by asking, of each measurement. */
const loads: number[] = [];

interface Asked {
  perSecond: number;
  /** Of processor, of what answers alone: for each answer. */
  microseconds: number;
}

interface Round {
  bare: Asked;
  prepared: Asked;
  app: Asked;
  /** Two processes of the app at once, each with as many connections. */
  two: Asked;
}

/** The two processes, each by itself and both at once. */
interface SharedRound {
  one: Asked;
  other: Asked;
  two: Asked;
}

function reportShared(rounds: SharedRound[], log: (line: string) => void): void {
  const medianOf = (read: (round: SharedRound) => number) => median(rounds.map(read));
  const oneOf = ({ one, other }: SharedRound) => (one.perSecond + other.perSecond) / 2;
  const microseconds = ({ one, other }: SharedRound) => (one.microseconds + other.microseconds) / 2;
  log(
    `  a quarter of a processor for each process: one ` +
      `${medianOf(oneOf).toFixed(0)} a second, ${medianOf(microseconds).toFixed(0)} µs; two ` +
      `${medianOf(({ two }) => two.perSecond).toFixed(0)}, ` +
      `${medianOf(({ two }) => two.microseconds).toFixed(0)} µs, ` +
      `${medianOf((round) => round.two.perSecond / oneOf(round)).toFixed(2)} of one (aim: at least 1.80)`,
  );
}

function report(rounds: Round[], log: (line: string) => void): void {
  const medianOf = (read: (round: Round) => number) => median(rounds.map(read));
  const told = (name: keyof Round) =>
    `${medianOf((round) => round[name].perSecond).toFixed(0)} a second, ` +
    `${medianOf((round) => round[name].microseconds).toFixed(0)} µs of processor each`;
  const ratio = (of: keyof Round, to: keyof Round) =>
    medianOf((round) => round[of].perSecond / round[to].perSecond).toFixed(2);
  const byProcessor = (of: keyof Round, to: keyof Round) =>
    medianOf((round) => round[to].microseconds / round[of].microseconds).toFixed(2);
  log(
    `Reads of one site, ${CONNECTIONS} connections for each process, ${ROUNDS} rounds of ${SECONDS} s each, in turn:`,
  );
  log(`  bare Fastify + pg  ${told('bare')}`);
  log(`  the same, prepared ${told('prepared')}`);
  log(`  through the API    ${told('app')}`);
  log(`  ratio              ${ratio('app', 'bare')} (aim: at least 0.60)`);
  log(
    `  ratio to prepared  ${ratio('app', 'prepared')} (aim: at least 0.45), by processor ${byProcessor('app', 'prepared')}`,
  );
  log(`  two processes      ${told('two')}, ${ratio('two', 'app')} of one, on the same processors`);
  const [busy] = loadavg();
  log(
    `  on ${cpus().length} processors, of which this load generator takes ${median(loads).toFixed(2)}, PostgreSQL its ` +
      `share, and everything on the machine wanted ${busy?.toFixed(1)} (more than there are: ratios are too low)`,
  );
}

/** Answers a second; anything but 200 fails the benchmark. */
async function rate(url: string, headers = {}): Promise<number> {
  const before = process.cpuUsage();
  const result = await autocannon({ url, headers, connections: CONNECTIONS, duration: SECONDS });
  const { user, system } = process.cpuUsage(before);
  loads.push((user + system) / 1e6 / SECONDS);
  if (result.non2xx > 0 || result.errors > 0) throw new Error(`${url} did not answer every time`);
  return result.requests.average;
}
