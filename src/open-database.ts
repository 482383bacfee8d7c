import type { Config } from './config.js';
import { startBuiltInServer } from './database/built-in-server.js';

/** The database that the settings name, or the built-in one, kept running where `onLost` is given. */
export async function openDatabase(
  config: Config,
  log: (line: string) => void,
  onLost?: (error: unknown) => void,
) {
  const { databaseUrl, migrationDatabaseUrl, dataDirectory } = config;
  if (databaseUrl === undefined) return startBuiltInServer({ dataDirectory, log, onLost });
  return {
    appUrl: databaseUrl,
    ownerUrl: migrationDatabaseUrl ?? databaseUrl,
    stop: () => Promise.resolve(),
  };
}
