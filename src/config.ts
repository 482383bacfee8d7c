import { resolve } from 'node:path';

/** What the process is told from outside; every setting has one name and one place: here. */
export interface Config {
  host: string;
  port: number;
  /** The app's connection; left out, the built-in server is started. */
  databaseUrl?: string;
  /** The owner's connection, when migrations run as another role than the app. */
  migrationDatabaseUrl?: string;
  dataDirectory: string;
  /** Until access control tells firms apart, the one firm that this installation serves. */
  firm: { id: string; name: string };
}

export function readConfig(env: NodeJS.ProcessEnv): Config {
  return {
    host: env['HOST'] || '127.0.0.1',
    port: readPort(env['PORT']),
    databaseUrl: env['DATABASE_URL'] || undefined,
    migrationDatabaseUrl: env['MIGRATION_DATABASE_URL'] || undefined,
    dataDirectory: resolve(env['DATA_DIRECTORY'] || '.data'),
    firm: {
      id: env['FIRM_ID'] || '01900000-0000-7000-8000-000000000001',
      name: env['FIRM_NAME'] || 'Our firm',
    },
  };
}

function readPort(text: string | undefined): number {
  if (text === undefined || text === '') return 3000;
  const port = Number(text);
  if (!Number.isInteger(port) || port < 0 || port > 65535) {
    throw new Error(`PORT must be a whole number from 0 to 65535, not "${text}"`);
  }
  return port;
}
