import { spawn } from 'node:child_process';

import { SystemAccount } from './built-in-account.js';
import { errorCode } from './built-in-error.js';

/** Runs a program of the server to its end: its exit code and all it printed, errors included. */
export function runProgram(
  account: SystemAccount,
  program: string,
  args: string[],
): Promise<{ code: number | null; output: string }> {
  const [command, commandArgs] = account.command(program, args);
  const child = spawn(command, commandArgs, {
    ...account.identity,
    env: serverEnvironment(),
    cwd: '/',
    windowsHide: true,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const chunks: Buffer[] = [];
  child.stdout.on('data', (chunk: Buffer) => chunks.push(chunk));
  child.stderr.on('data', (chunk: Buffer) => chunks.push(chunk));
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, output: Buffer.concat(chunks).toString().trim() }));
  });
}

/** This process's environment without what would change the server's settings or the language of its messages. */
export function serverEnvironment(): NodeJS.ProcessEnv {
  const kept = Object.entries(process.env).filter(([name]) => !/^(PG|LC_|LANG|TZ$)/.test(name));
  return { ...Object.fromEntries(kept), LC_ALL: 'C', TZ: 'UTC' };
}

/** Whether there is a process with this number, whatever it is and whosever. */
export function isAlive(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch (error) {
    return errorCode(error) === 'EPERM';
  }
}
