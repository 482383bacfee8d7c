import { randomBytes } from 'node:crypto';
import { existsSync } from 'node:fs';
import { readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';

import { clusterIn } from '#app/database/built-in-cluster.js';
import { isServing, readPostmasterFile } from '#app/database/built-in-postmaster.js';
import { isAlive } from '#app/database/built-in-program.js';

const PREFIX = `lastheard-test-${process.getuid?.() ?? 0}-`;

/** A name, not yet made, for a data directory that goes when this process is gone: at its end, or in the next run. */
export function throwAwayDirectory(parent: string): string {
  return join(parent, `${PREFIX}${process.pid}-${randomBytes(4).toString('hex')}`);
}

/** Ends what earlier runs left behind because they were killed outright. */
export async function removeAbandoned(parent: string): Promise<void> {
  if (!existsSync(parent)) return;
  for (const name of await readdir(parent)) {
    const maker = name.startsWith(PREFIX) ? parseInt(name.slice(PREFIX.length)) : NaN;
    if (Number.isNaN(maker) || isAlive(maker)) continue;
    const dataDirectory = join(parent, name);
    const cluster = clusterIn(dataDirectory);
    const pid = (await readPostmasterFile(cluster))?.pid;
    if (pid !== undefined && (await isServing(pid, cluster))) {
      process.kill(pid, 'SIGQUIT');
      while (await isServing(pid, cluster)) await delay(10);
    }
    await rm(dataDirectory, { recursive: true, force: true });
  }
}
