import type { Duplex } from 'node:stream';
import { Injectable } from '@nestjs/common';
import type { Pool, PoolClient, QueryConfig, QueryResult } from 'pg';
import { DataSource } from 'typeorm';

/** Packets under way: one that hangs keeps nobody else out, and the pool is there for others as well. */
const AT_ONCE = 3;

/** A packet that is answered by then is waited for: the next one is the larger, and each costs both sides more than a statement. */
const WAITED_FOR_MS = 5;

interface Waiting {
  ask: (client: PoolClient) => Promise<unknown>;
  resolve: (answer: never) => void;
  reject: (error: unknown) => void;
}

/**
 * Statements of many requests in one packet, each a transaction by itself: what comes while another packet is under way
 * goes together. Only for prepared ones that are quick, since those behind wait for it.
 */
@Injectable()
export class SentTogether {
  private readonly pool: Pool;
  private preparing: (() => void)[] = [];
  private waiting: Waiting[] = [];
  private underWay = 0;
  /** Of those under way: no longer waited for. */
  private late = 0;
  private soon?: NodeJS.Immediate;

  constructor(dataSource: DataSource) {
    this.pool = (dataSource.driver as unknown as { master: Pool }).master;
  }

  /** Sends one with the next packet; `ask` must send at once what it sends. */
  send<T>(ask: (client: PoolClient) => Promise<T>): Promise<T> {
    return new Promise((resolve, reject) => {
      this.waiting.push({ ask, resolve, reject });
      this.lookSoon();
    });
  }

  query<Row extends object>(statement: QueryConfig): Promise<QueryResult<Row>> {
    return this.send((client) => client.query<Row>(statement));
  }

  /** Calls when the next packet is put together: what is sent then goes with it, and says the sum of what was asked until then. */
  whenSending(prepare: () => void): void {
    this.preparing.push(prepare);
    this.lookSoon();
  }

  private lookSoon(): void {
    this.soon ??= setImmediate(() => {
      this.soon = undefined;
      if (this.underWay > this.late || this.underWay === AT_ONCE) return;
      const prepared = this.preparing;
      this.preparing = [];
      for (const prepare of prepared) prepare();
      // When all that they promised has led to a statement.
      queueMicrotask(() => process.nextTick(() => this.sendWaiting()));
    });
  }

  private sendWaiting(): void {
    const sent = this.waiting;
    if (sent.length === 0) return;
    this.waiting = [];
    this.underWay++;
    let isLate = false;
    const timer = setTimeout(() => {
      isLate = true;
      this.late++;
      this.lookSoon();
    }, WAITED_FOR_MS);
    void this.ask(sent).finally(() => {
      clearTimeout(timer);
      this.underWay--;
      if (isLate) this.late--;
      this.lookSoon();
    });
  }

  private async ask(sent: readonly Waiting[]): Promise<void> {
    let client: PoolClient;
    try {
      client = await this.pool.connect();
    } catch (error) {
      for (const { reject } of sent) reject(error);
      return;
    }
    const { stream } = (client as unknown as { connection: { stream: Duplex } }).connection;
    stream.cork();
    const answered = allOf(sent, client);
    stream.uncork();
    // One that failed may have left the connection without a statement that others think it has.
    client.release(!(await answered));
  }
}

/** Answers each as it comes: nobody waits for what stands behind them in the packet. Whether the database answered all. */
function allOf(sent: readonly Waiting[], client: PoolClient): Promise<boolean> {
  return new Promise((end) => {
    let left = sent.length;
    let isWhole = true;
    const note = (isAnswered: boolean) => {
      isWhole &&= isAnswered;
      if (--left === 0) end(isWhole);
    };
    for (const one of sent) {
      const fail = (error: unknown) => {
        one.reject(error);
        note(false);
      };
      const pass = (answer: unknown) => {
        one.resolve(answer as never);
        note(true);
      };
      try {
        // One promise for each and no more: that is what most of this costs (decision 0153).
        one.ask(client).then(pass, fail);
      } catch (error) {
        fail(error);
      }
    }
  });
}
