import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync, readlinkSync, realpathSync } from 'node:fs';
import { join } from 'node:path';

/** The process id that the server of a data directory wrote down. */
export function serverPid(dataDirectory: string): number {
  return Number(readFileSync(pidFile(dataDirectory), 'utf8').split('\n')[0]);
}

export function pidFile(dataDirectory: string): string {
  return join(dataDirectory, 'server', 'data', 'postmaster.pid');
}

/**
 * The processes, the server's own children included, that work in a data directory: found by looking at every
 * process of the machine, not by what the launcher believes. Linux only.
 */
export function processesIn(dataDirectory: string): number[] {
  if (!existsSync(dataDirectory)) return [];
  const data = join(realpathSync(dataDirectory), 'server', 'data');
  return readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .map(Number)
    .filter((pid) => workingDirectory(pid) === data);
}

function workingDirectory(pid: number): string | undefined {
  try {
    return readlinkSync(`/proc/${pid}/cwd`);
  } catch {
    return undefined; // gone meanwhile, a zombie, or a kernel thread
  }
}

/** The one-letter state of a process; empty when there is none. */
export function processState(pid: number): string {
  return shown(pid, 'stat').charAt(0);
}

/** The name of the program that a process runs. */
export function processName(pid: number): string {
  return shown(pid, 'comm');
}

function shown(pid: number, column: string): string {
  return spawnSync('ps', ['-o', `${column}=`, '-p', String(pid)], {
    encoding: 'utf8',
  }).stdout.trim();
}
