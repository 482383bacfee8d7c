import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Logger } from 'pino';
import { FirstStartService } from './access/first-start.service.js';
import { SetUpService } from './access/set-up.service.js';
import type { Config } from './config.js';
import { createAdapter, createApp } from './create-app.js';
import { assertSafeRole } from './database/assert-safe-role.js';
import { migrate } from './database/migrate.js';
import { MetricsService } from './observability/metrics.service.js';
import { startMetricsServer } from './observability/metrics-server.js';
import { openDatabase } from './open-database.js';
import { readSealKey } from './seal-key.js';
import { SystemClock } from './shared/clock.js';
import {
  blaming,
  explainDatabase,
  explainListen,
  explainOwner,
  warnOfLinks,
} from './start-failure.js';

export interface Running {
  app: NestFastifyApplication;
  /** Where it serves, such as http://127.0.0.1:3000. */
  address: string;
  /** Where the first owner is made, a secret; undefined where somebody can sign in. */
  firstStart: string | undefined;
  /** Drains the app first, then stops the database server if it was started here. */
  stop: () => Promise<void>;
}

/** What is told of a start, and of what goes wrong for good after it. */
export interface Listeners {
  say: (line: string) => void;
  log: Logger;
  /** The database is gone and does not come back: nothing can be served any more. */
  onLost: (error: unknown) => void;
}

/** What was started so far, each with how it is stopped; the last one first. */
type Stops = (() => Promise<void>)[];

/** Starts everything: database, migrations, the app. What was started is stopped if a later step fails. */
export async function start(config: Config, listeners: Listeners): Promise<Running> {
  const stops: Stops = [];
  const stop = async () => {
    for (const each of stops.splice(0).reverse()) await each();
  };
  try {
    return { ...(await startEach(config, listeners, stops)), stop };
  } catch (error) {
    // Why it does not start is told, not that something could not be stopped either.
    await stop().catch((reason: unknown) => listeners.log.error(reason));
    throw error;
  }
}

async function startEach(
  config: Config,
  { say, log, onLost }: Listeners,
  stops: Stops,
): Promise<Omit<Running, 'stop'>> {
  const sealKey = await readSealKey(config.sealKey, config.dataDirectory);
  const database = await openDatabase(config, say, onLost);
  stops.push(() => database.stop());
  await prepareDatabase(config, database);
  let address = '';
  const linkWarning = warnOfLinks(config);
  const settings = {
    appUrl: database.appUrl,
    publicUrl: config.publicUrl ?? (() => address),
    linkWarning,
    sealKey,
    mail: config.mail,
    reachesPrivate: config.reachesPrivate,
    clock: new SystemClock(),
  };
  const app = await createApp(settings, createAdapter({ trustProxy: config.trustProxy, log }));
  stops.push(() => app.close());
  const { firm, owner, metrics, host, port } = config;
  const setUp = app.get(SetUpService);
  await setUp.ensureFirm(firm.id, firm.name);
  if (owner) await blaming(() => setUp.ensureOwner(firm.id, owner), explainOwner);
  await blaming(async () => app.listen(port, host), explainListen(['HOST', 'PORT'], config));
  if (metrics) stops.push(await serveMetrics(app, metrics, say));
  address = await app.getUrl();
  if (linkWarning !== null) log.warn(linkWarning);
  const code = await app.get(FirstStartService).begin(firm.id);
  const firstStart =
    code === undefined ? undefined : `${config.publicUrl ?? address}/first-start#${code}`;
  return { app, address, firstStart };
}

async function prepareDatabase(
  { databaseUrl, migrationDatabaseUrl }: Config,
  { appUrl, ownerUrl }: { appUrl: string; ownerUrl: string },
): Promise<void> {
  const explainApp = explainDatabase('DATABASE_URL', databaseUrl);
  await blaming(() => assertSafeRole(appUrl), explainApp);
  await blaming(
    () => migrate(ownerUrl, appUrl),
    migrationDatabaseUrl === undefined
      ? explainApp
      : explainDatabase('MIGRATION_DATABASE_URL', migrationDatabaseUrl),
  );
}

/** Answers with how it is stopped. */
async function serveMetrics(
  app: NestFastifyApplication,
  at: NonNullable<Config['metrics']>,
  say: (line: string) => void,
): Promise<() => Promise<void>> {
  const { registry } = app.get(MetricsService);
  const server = await blaming(
    () => startMetricsServer(registry, at.host, at.port),
    explainListen(['METRICS_HOST', 'METRICS_PORT'], at),
  );
  say(`Metrics on ${server.address}`);
  return () => server.stop();
}
