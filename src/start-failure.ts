import type { Config } from './config.js';
import { errorCode } from './database/built-in-error.js';
import { InvalidInputError } from './shared/domain-error.js';
import { SettingsError, wrongSetting } from './settings-error.js';

/** Runs a step of the start; what it fails with is told as the setting that is wrong, where one is to blame. */
export async function blaming<T>(
  step: () => Promise<T>,
  explain: (error: unknown) => SettingsError | undefined,
): Promise<T> {
  try {
    return await step();
  } catch (error) {
    throw explain(error) ?? error;
  }
}

/** Why nothing can listen there. */
export function explainListen(
  [hostName, portName]: readonly [host: string, port: string],
  { host, port }: { host: string; port: number },
): (error: unknown) => SettingsError | undefined {
  const reasons: Record<string, string> = {
    EADDRINUSE: `${portName}: another program listens on ${port} of ${host} already; stop it, or choose another port`,
    EACCES: `${portName}: this user may not listen on ${port}; choose one above 1023`,
    EADDRNOTAVAIL: `${hostName}: ${host} is no address of this machine`,
    ENOTFOUND: `${hostName}: ${host} is no address, and no name that is known here`,
  };
  return (error) => {
    const reason = reasons[errorCode(error) ?? ''];
    return reason === undefined ? undefined : new SettingsError([reason], error);
  };
}

/** Why the database cannot be used; nothing of the URL but where it points is repeated. */
export function explainDatabase(
  name: string,
  url: string | undefined,
): (error: unknown) => SettingsError | undefined {
  return (error) => {
    if (url === undefined) return undefined;
    const { host, pathname, username } = new URL(url);
    const reasons: Record<string, string> = {
      ECONNREFUSED: `nothing listens at ${host}`,
      ETIMEDOUT: `nothing answers at ${host}`,
      EHOSTUNREACH: `there is no way to ${host}`,
      ENOTFOUND: `no machine is known as ${host}`,
      EAI_AGAIN: `no machine is known as ${host}`,
      '28P01': `the server at ${host} refuses the password of ${username}`,
      '28000': `the server at ${host} does not let ${username} in`,
      '3D000': `the server at ${host} has no database ${pathname.slice(1)}`,
      '42501': `${username} may not do what is needed: ${messageOf(error)}`,
      '57P03': `the server at ${host} is just starting or stopping; try again`,
    };
    const reason = reasons[errorCode(error) ?? ''];
    return reason === undefined ? undefined : wrongSetting(name, reason, error);
  };
}

const OWNER_SETTINGS: Readonly<Record<string, string>> = {
  '/email': 'OWNER_EMAIL',
  '/name': 'OWNER_NAME',
  '/password': 'OWNER_PASSWORD',
};

/** Why the first owner cannot be made. */
export function explainOwner(error: unknown): SettingsError | undefined {
  if (!(error instanceof InvalidInputError)) return undefined;
  return new SettingsError(
    error.errors.map(({ field, reason }) => `${OWNER_SETTINGS[field] ?? field}: ${reason}`),
    error,
  );
}

const LOOPBACK = /^(?:localhost|127\.\d+\.\d+\.\d+|::1)$/i;

/** What is wrong with the links of this installation, in words for who hands them on; null where nothing is. */
export function warnOfLinks({
  publicUrl,
  host,
}: Pick<Config, 'publicUrl' | 'host'>): string | null {
  if (publicUrl !== undefined || LOOPBACK.test(host)) return null;
  return (
    'PUBLIC_URL is not set: links on posters and in mails begin with the address that the service listens on, which ' +
    'others may not reach. Set it to where people reach the service, and make them anew.'
  );
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
