import type { Duplex } from 'node:stream';
import type { Pool, PoolClient } from 'pg';

/** How long the end of a read may wait for something to go along with. */
const HELD_MS = 2;

/**
 * Lets statements to a pipelined connection go out in one packet: each packet costs both sides more
 * than a statement does (`npm run bench`).
 */
export class WriteTogether {
  /** Connections that hold something back, and are not in use. */
  private readonly holding = new Set<PoolClient>();
  private timer?: NodeJS.Timeout;

  constructor(pool: Pool) {
    pool.on('acquire', (client) => {
      if (this.holding.delete(client)) uncorkAfterTurn(client);
    });
  }

  /** Holds back what is written until this turn of the program is over. */
  now(client: PoolClient): void {
    streamOf(client).cork();
    uncorkAfterTurn(client);
  }

  /** Holds back what is written until the connection is used again, and not for longer than 2 ms. */
  soon(client: PoolClient): void {
    streamOf(client).cork();
    this.holding.add(client);
    this.timer ??= setTimeout(() => this.letGo(), HELD_MS);
  }

  private letGo(): void {
    this.timer = undefined;
    for (const client of this.holding) streamOf(client).uncork();
    this.holding.clear();
  }
}

/** A turn is over when no promise is left to be settled in it. */
function uncorkAfterTurn(client: PoolClient): void {
  queueMicrotask(() => process.nextTick(() => streamOf(client).uncork()));
}

function streamOf(client: PoolClient): Duplex {
  return (client as unknown as { connection: { stream: Duplex } }).connection.stream;
}
