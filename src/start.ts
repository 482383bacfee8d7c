import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Logger } from 'pino';
import { SetUpService } from './access/set-up.service.js';
import type { Config } from './config.js';
import { createAdapter, createApp } from './create-app.js';
import { assertSafeRole } from './database/assert-safe-role.js';
import { migrate } from './database/migrate.js';
import { MetricsService } from './observability/metrics.service.js';
import { type MetricsServer, startMetricsServer } from './observability/metrics-server.js';
import { openDatabase } from './open-database.js';
import { readSealKey } from './seal-key.js';
import { SystemClock } from './shared/clock.js';

export interface Running {
  app: NestFastifyApplication;
  /** Where it serves, such as http://127.0.0.1:3000. */
  address: string;
  /** Drains the app first, then stops the database server if it was started here. */
  stop: () => Promise<void>;
}

/** Starts everything: database, migrations, the app. What was started is stopped if a later step fails. */
export async function start(
  config: Config,
  say: (line: string) => void,
  log: Logger,
): Promise<Running> {
  const database = await openDatabase(config, say);
  try {
    await assertSafeRole(database.appUrl);
    await migrate(database.ownerUrl, database.appUrl);
    let address = '';
    const app = await createApp(
      {
        appUrl: database.appUrl,
        publicUrl: config.publicUrl ?? (() => address),
        sealKey: await readSealKey(config.sealKey, config.dataDirectory),
        mail: config.mail,
        clock: new SystemClock(),
      },
      createAdapter({ trustProxy: config.trustProxy, log }),
    );
    const metrics = await serveMetrics(app, config, say);
    const stop = async () => {
      await metrics?.stop();
      await app.close();
      await database.stop();
    };
    const { firm, owner } = config;
    await app.get(SetUpService).ensureFirm(firm.id, firm.name);
    if (owner !== undefined) await app.get(SetUpService).ensureOwner(firm.id, owner);
    await app.listen(config.port, config.host);
    address = await app.getUrl();
    return { app, address, stop };
  } catch (error) {
    await database.stop();
    throw error;
  }
}

async function serveMetrics(
  app: NestFastifyApplication,
  { metrics }: Config,
  say: (line: string) => void,
): Promise<MetricsServer | undefined> {
  if (metrics === undefined) return undefined;
  const { registry } = app.get(MetricsService);
  const server = await startMetricsServer(registry, metrics.host, metrics.port);
  say(`Metrics on ${server.address}`);
  return server;
}
