import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { FirmService } from './access/firm.service.js';
import type { Config } from './config.js';
import { createApp } from './create-app.js';
import { assertSafeRole } from './database/assert-safe-role.js';
import { startBuiltInServer } from './database/built-in-server.js';
import { FirmTransaction } from './database/firm-transaction.js';
import { migrate } from './database/migrate.js';
import { SystemClock } from './shared/clock.js';

export interface Running {
  app: NestFastifyApplication;
  /** Where it serves, such as http://127.0.0.1:3000. */
  address: string;
  /** Drains the app first, then stops the database server if it was started here. */
  stop: () => Promise<void>;
}

/** Starts everything: database, migrations, the app. What was started is stopped if a later step fails. */
export async function start(config: Config, log: (line: string) => void): Promise<Running> {
  const database = await openDatabase(config, log);
  try {
    await assertSafeRole(database.appUrl);
    await migrate(database.ownerUrl, database.appUrl);
    const firmId = config.firm.id;
    const app = await createApp({ appUrl: database.appUrl, firmId, clock: new SystemClock() });
    const stop = async () => {
      await app.close();
      await database.stop();
    };
    await app
      .get(FirmTransaction)
      .run(firmId, 'write', () => app.get(FirmService).ensure(config.firm.name));
    await app.listen(config.port, config.host);
    return { app, address: await app.getUrl(), stop };
  } catch (error) {
    await database.stop();
    throw error;
  }
}

async function openDatabase(config: Config, log: (line: string) => void) {
  const { databaseUrl, migrationDatabaseUrl, dataDirectory } = config;
  if (databaseUrl === undefined) return startBuiltInServer({ dataDirectory, log });
  return {
    appUrl: databaseUrl,
    ownerUrl: migrationDatabaseUrl ?? databaseUrl,
    stop: () => Promise.resolve(),
  };
}
