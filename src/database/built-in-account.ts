import { spawnSync } from 'node:child_process';
import { statSync } from 'node:fs';

import { BuiltInServerError, errorCode } from './built-in-error.js';

/**
 * Under which account PostgreSQL runs. It refuses to run as root, so for root it is either root's own
 * files seen from a user namespace in which root has another number, or another account outright.
 */
export interface SystemAccount {
  command(program: string, args: string[]): [string, string[]];
  /** Present where the programs run as another account, which then owns the data. */
  identity?: { uid: number; gid: number };
}

const NOBODY = 65534;
const MAP_USER = ['--user', `--map-user=${NOBODY}`, '--'];

const sameAccount: SystemAccount = { command: (program, args) => [program, args] };
const mappedRoot: SystemAccount = {
  command: (program, args) => ['unshare', [...MAP_USER, program, ...args]],
};

/**
 * Chooses the account for data at `serverDirectory` (which need not exist yet): whoever owns existing
 * data keeps it. `probe` is a program of the server that must be able to run. Throws `no-account`.
 */
export function chooseAccount(serverDirectory: string, probe: string): SystemAccount {
  if (process.getuid?.() !== 0) return sameAccount;
  const owner = ownerOf(serverDirectory);
  if (owner === undefined || owner.uid === 0) {
    if (canRun(mappedRoot, probe)) return mappedRoot;
    if (owner !== undefined) {
      throw new BuiltInServerError(
        'no-account',
        `${serverDirectory} belongs to root, PostgreSQL refuses to run as root, and user namespaces are not permitted here (unshare --user). Start as an ordinary user with another data directory, or give this one to that user with chown -R.`,
      );
    }
  }
  const other = otherAccount(owner ?? { uid: NOBODY, gid: NOBODY });
  if (canRun(other, probe)) return other;
  throw new BuiltInServerError(
    'no-account',
    `PostgreSQL refuses to run as root. Neither a user namespace (unshare --user) nor the account with the number ${other.identity?.uid} can run ${probe} here. Start as an ordinary user.`,
  );
}

function otherAccount(identity: { uid: number; gid: number }): SystemAccount {
  return { ...sameAccount, identity };
}

function ownerOf(path: string): { uid: number; gid: number } | undefined {
  try {
    const { uid, gid } = statSync(path);
    return { uid, gid };
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return undefined;
    throw error;
  }
}

function canRun(account: SystemAccount, probe: string): boolean {
  const [command, args] = account.command(probe, ['--version']);
  return spawnSync(command, args, { ...account.identity, stdio: 'ignore' }).status === 0;
}
