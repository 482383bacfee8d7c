import { isIP } from 'node:net';
import { resolve } from 'node:path';
import { isEmail } from 'class-validator';
import { toSealKey } from './seal-key.js';
import { SettingsError, wrongSetting } from './settings-error.js';

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
  /** Webhooks may go to the machine's own network. */
  reachesPrivate: boolean;
  /** The installation's first firm, made at the first start; further ones are added by a command. */
  firm: { id: string; name: string };
  /** Signs in first; made at the first start when both are given. */
  owner?: { name: string; email: string; password: string };
}

/** @throws SettingsError that names every setting that is wrong, and why */
export function readConfig(env: NodeJS.ProcessEnv): Config {
  const problems: string[] = [];
  const read = <T>(reader: () => T) => collecting(problems, reader);
  const config = {
    host: env['HOST'] || '127.0.0.1',
    port: read(() => readPort('PORT', env['PORT'] || '3000')) ?? 0,
    databaseUrl: read(() => readUrl(env, 'DATABASE_URL', POSTGRES)),
    migrationDatabaseUrl: read(() => readUrl(env, 'MIGRATION_DATABASE_URL', POSTGRES)),
    dataDirectory: resolve(env['DATA_DIRECTORY'] || '.data'),
    sealKey: read(() => readSealSetting(env)),
    publicUrl: read(() => readPublicUrl(env)),
    firm: {
      id: read(() => readFirmId(env)) ?? FIRST_FIRM,
      name: env['FIRM_NAME'] || 'Our firm',
    },
    owner: read(() => readOwner(env)),
    logLevel: read(() => readLogLevel(env)) ?? 'info',
    metrics: read(() => readMetrics(env)),
    mail: read(() => readMail(env)),
    trustProxy: read(() => readTrustProxy(env)),
    reachesPrivate: read(() => readYes(env, 'WEBHOOKS_TO_OWN_NETWORK')) ?? false,
  };
  if (config.migrationDatabaseUrl !== undefined && config.databaseUrl === undefined) {
    problems.push('MIGRATION_DATABASE_URL: says nothing without DATABASE_URL');
  }
  if (problems.length > 0) throw new SettingsError(problems);
  return config;
}

/** Goes on after a setting that is wrong, so that the others are told with it. */
function collecting<T>(problems: string[], reader: () => T): T | undefined {
  try {
    return reader();
  } catch (error) {
    if (!(error instanceof SettingsError)) throw error;
    problems.push(...error.problems);
    return undefined;
  }
}

const POSTGRES = ['postgres:', 'postgresql:'];
const FIRST_FIRM = '01900000-0000-7000-8000-000000000001';
const LOG_LEVELS = ['debug', 'info', 'warn', 'error', 'silent'];
/** Names that stand for networks where a proxy may be. */
const NEAR = ['loopback', 'linklocal', 'uniquelocal'];

/** What is in a URL besides may be a password, so that a wrong one is not repeated. */
function readUrl(env: NodeJS.ProcessEnv, name: string, protocols: string[]): string | undefined {
  const text = env[name];
  if (!text) return undefined;
  const url = URL.canParse(text) ? new URL(text) : undefined;
  if (url === undefined || !protocols.includes(url.protocol) || url.host === '') {
    const such = protocols.map((protocol) => `${protocol}//…`).join(' or ');
    throw wrongSetting(name, `must be a URL such as ${such}`);
  }
  return text;
}

function readPublicUrl(env: NodeJS.ProcessEnv): string | undefined {
  const text = readUrl(env, 'PUBLIC_URL', ['http:', 'https:']);
  if (text === undefined) return undefined;
  const { search, hash, username } = new URL(text);
  if (search || hash || username) {
    throw wrongSetting('PUBLIC_URL', 'must end with the host, its port or a path');
  }
  return text.replace(/\/+$/, '');
}

function readFirmId(env: NodeJS.ProcessEnv): string | undefined {
  const id = env['FIRM_ID'];
  if (!id || /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i.test(id)) return id || undefined;
  throw wrongSetting('FIRM_ID', `must be a UUID, not "${id}"`);
}

function readLogLevel(env: NodeJS.ProcessEnv): string | undefined {
  const level = env['LOG_LEVEL'];
  if (!level || LOG_LEVELS.includes(level)) return level || undefined;
  throw wrongSetting('LOG_LEVEL', `must be one of ${LOG_LEVELS.join(', ')}, not "${level}"`);
}

function readYes(env: NodeJS.ProcessEnv, name: string): boolean {
  const text = env[name];
  if (!text || text === 'yes') return text === 'yes';
  throw wrongSetting(name, `must be yes or left out, not "${text}"`);
}

function readTrustProxy(env: NodeJS.ProcessEnv): string | undefined {
  const text = env['TRUST_PROXY'];
  const wrong = text?.split(',').find((one) => !isNetwork(one.trim()));
  if (text && wrong !== undefined) {
    throw wrongSetting('TRUST_PROXY', `"${wrong.trim()}" is no address and no network`);
  }
  return text || undefined;
}

function isNetwork(text: string): boolean {
  const [address = '', bits, ...rest] = text.split('/');
  if (bits === undefined && NEAR.includes(address)) return true;
  const most = { 0: -1, 4: 32, 6: 128 }[isIP(address)] ?? -1;
  const isLength = bits === undefined || (/^\d{1,3}$/.test(bits) && Number(bits) <= most);
  return most > 0 && rest.length === 0 && isLength;
}

function readOwner(env: NodeJS.ProcessEnv): Config['owner'] {
  const { OWNER_EMAIL: email, OWNER_PASSWORD: password } = env;
  const problems = findMissing(env, ['OWNER_EMAIL', 'OWNER_PASSWORD']);
  if (email && !isEmail(email)) problems.push(`OWNER_EMAIL: "${email}" is no e-mail address`);
  if (problems.length > 0) throw new SettingsError(problems);
  return email && password ? { name: env['OWNER_NAME'] || 'Owner', email, password } : undefined;
}

function readMail(env: NodeJS.ProcessEnv): Config['mail'] {
  const { MAIL_FROM: from } = env;
  const problems = findMissing(env, ['SMTP_URL', 'MAIL_FROM']);
  const smtpUrl = collecting(problems, () => readUrl(env, 'SMTP_URL', ['smtp:', 'smtps:']));
  if (from && !from.includes('@')) problems.push(`MAIL_FROM: "${from}" is no e-mail address`);
  if (problems.length > 0) throw new SettingsError(problems);
  return smtpUrl && from ? { smtpUrl, from } : undefined;
}

/** Of two settings that say something together alone. */
function findMissing(env: NodeJS.ProcessEnv, pair: readonly [string, string]): string[] {
  const given = pair.filter((name) => env[name]);
  if (given.length !== 1) return [];
  return pair
    .filter((name) => !env[name])
    .map((name) => `${name}: is missing; ${given[0]} is given`);
}

function readSealSetting(env: NodeJS.ProcessEnv): string | undefined {
  const text = env['SEAL_KEY'] || undefined;
  if (text !== undefined) toSealKey('SEAL_KEY', text);
  return text;
}

function readMetrics(env: NodeJS.ProcessEnv): Config['metrics'] {
  const { METRICS_PORT: port, METRICS_HOST: host } = env;
  if (!port) return undefined;
  return { host: host || '127.0.0.1', port: readPort('METRICS_PORT', port) };
}

function readPort(name: string, text: string): number {
  const port = Number(text);
  if (!Number.isInteger(port) || port < 0 || port > 65535) {
    throw wrongSetting(name, `must be a whole number from 0 to 65535, not "${text}"`);
  }
  return port;
}
