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
  /** Seals secrets in the database: 32 bytes in base 64; left out: a file in the data directory. */
  sealKey?: string;
  /** Where people reach the service; left out: where it listens. */
  publicUrl?: string;
  /** `debug`, `info`, `warn`, `error` or `silent`. */
  logLevel: string;
  /** Where Prometheus reads; left out: nowhere. Not for the public. */
  metrics?: { host: string; port: number };
  /** Addresses or networks of proxies in front, with commas between; left out: none. */
  trustProxy?: string;
  /** The mail server; left out, mails stay in the outbox. */
  mail?: { smtpUrl: string; from: string };
  /** The installation's first firm, made at the first start; further ones are added by a command. */
  firm: { id: string; name: string };
  /** Signs in first; made at the first start when both are given. */
  owner?: { name: string; email: string; password: string };
}

export function readConfig(env: NodeJS.ProcessEnv): Config {
  return {
    host: env['HOST'] || '127.0.0.1',
    port: readPort('PORT', env['PORT'] || '3000'),
    databaseUrl: env['DATABASE_URL'] || undefined,
    migrationDatabaseUrl: env['MIGRATION_DATABASE_URL'] || undefined,
    dataDirectory: resolve(env['DATA_DIRECTORY'] || '.data'),
    sealKey: env['SEAL_KEY'] || undefined,
    publicUrl: env['PUBLIC_URL']?.replace(/\/+$/, '') || undefined,
    firm: {
      id: env['FIRM_ID'] || '01900000-0000-7000-8000-000000000001',
      name: env['FIRM_NAME'] || 'Our firm',
    },
    owner: readOwner(env),
    logLevel: env['LOG_LEVEL'] || 'info',
    metrics: readMetrics(env),
    mail: readMail(env),
    trustProxy: env['TRUST_PROXY'] || undefined,
  };
}

function readOwner(env: NodeJS.ProcessEnv): Config['owner'] {
  const { OWNER_EMAIL: email, OWNER_PASSWORD: password } = env;
  if (!email && !password) return undefined;
  if (!email || !password) throw new Error('OWNER_EMAIL and OWNER_PASSWORD are given both or not');
  return { name: env['OWNER_NAME'] || 'Owner', email, password };
}

function readMail(env: NodeJS.ProcessEnv): Config['mail'] {
  const { SMTP_URL: smtpUrl, MAIL_FROM: from } = env;
  if (!smtpUrl && !from) return undefined;
  if (!smtpUrl || !from) throw new Error('SMTP_URL and MAIL_FROM are given both or not');
  return { smtpUrl, from };
}

function readMetrics(env: NodeJS.ProcessEnv): Config['metrics'] {
  const { METRICS_PORT: port, METRICS_HOST: host } = env;
  if (!port) return undefined;
  return { host: host || '127.0.0.1', port: readPort('METRICS_PORT', port) };
}

function readPort(name: string, text: string): number {
  const port = Number(text);
  if (!Number.isInteger(port) || port < 0 || port > 65535) {
    throw new Error(`${name} must be a whole number from 0 to 65535, not "${text}"`);
  }
  return port;
}
