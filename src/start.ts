import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { SetUpService } from './access/set-up.service.js';
import type { Config } from './config.js';
import { createAdapter, createApp } from './create-app.js';
import { startBuiltInServer } from './database/built-in-server.js';
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
    await migrate(database.ownerUrl, database.appUrl);
    const publicUrl = config.publicUrl ?? `http://${config.host}:${config.port}`;
    const app = await createApp(
      {
        appUrl: database.appUrl,
        publicUrl,
        mail: config.mail,
        clock: new SystemClock(),
      },
      createAdapter(config.trustProxy),
    );
    const stop = async () => {
      await app.close();
      await database.stop();
    };
    const { firm, owner } = config;
    await app.get(SetUpService).ensureFirm(firm.id, firm.name);
    if (owner !== undefined) await app.get(SetUpService).ensureOwner(firm.id, owner);
    await app.listen(config.port, config.host);
    return { app, address: await app.getUrl(), stop };
  } catch (error) {
    await database.stop();
    throw error;
  }
}

/** The database that the settings name, or the built-in one. */
export async function openDatabase(config: Config, log: (line: string) => void) {
  const { databaseUrl, migrationDatabaseUrl, dataDirectory } = config;
  if (databaseUrl === undefined) return startBuiltInServer({ dataDirectory, log });
  return {
    appUrl: databaseUrl,
    ownerUrl: migrationDatabaseUrl ?? databaseUrl,
    stop: () => Promise.resolve(),
  };
}
