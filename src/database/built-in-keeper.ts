import { BuiltInServerError } from './built-in-error.js';
import type { Reached } from './built-in-reach.js';

/** A server that dies more often than this in so long is not mended by starting it again. */
const MOST_DEATHS = 5;
const WITHIN_MS = 10 * 60_000;

export interface Keeper {
  /** The server as it was reached last; waits for one that is just being started again. */
  letGo(): Promise<Reached>;
}

export interface KeeperMeans {
  /** Reaches the server again, where it was. */
  reach: () => Promise<Reached>;
  log: (message: string) => void;
  /** Told once, when it is given up. */
  onLost: (error: unknown) => void;
}

/** Starts the server again whenever it is gone, until it is let go. */
export function keepRunning(first: Reached, { reach, log, onLost }: KeeperMeans): Keeper {
  let reached = first;
  let isLetGo = false;
  let again: Promise<void> = Promise.resolve();
  const deaths: number[] = [];

  const restart = async () => {
    deaths.push(Date.now());
    if (deaths.filter((at) => at > Date.now() - WITHIN_MS).length > MOST_DEATHS) {
      throw new BuiltInServerError(
        'did-not-start',
        `The built-in database server died more than ${MOST_DEATHS} times in ${WITHIN_MS / 60_000} minutes; its own log says why.`,
      );
    }
    log(`The built-in database server (process ${reached.pid}) is gone; starting it again.`);
    const next = await reach();
    if (next.superuserUrl !== reached.superuserUrl) {
      await next.lease.close();
      throw new BuiltInServerError(
        'did-not-start',
        'The built-in database server runs at another port now; start this program again.',
      );
    }
    reached = next;
    log(`The built-in database server is there again (process ${reached.pid}).`);
    watch();
  };
  const watch = () => {
    void reached.lease.lost.then(() => {
      if (!isLetGo) again = restart().catch(onLost);
    });
  };
  watch();
  return {
    async letGo() {
      isLetGo = true;
      await again;
      return reached;
    },
  };
}
