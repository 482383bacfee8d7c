import { EventEmitter } from 'node:events';

import { afterEach, beforeEach, describe, expect, it, jest } from '@jest/globals';
import type { Pool, PoolClient } from 'pg';

import { WriteTogether } from './write-together.js';

/** A connection of which only the corks of its stream can be seen. */
class Connection {
  corks = 0;
  readonly connection = {
    stream: { cork: () => this.corks++, uncork: () => this.corks-- },
  };

  get client(): PoolClient {
    return this as unknown as PoolClient;
  }
}

const turnOver = () => new Promise<void>((resolve) => setImmediate(resolve));

describe('what is written together', () => {
  let pool: EventEmitter;
  let together: WriteTogether;

  beforeEach(() => {
    pool = new EventEmitter();
    together = new WriteTogether(pool as unknown as Pool);
    jest.useFakeTimers({ doNotFake: ['nextTick', 'queueMicrotask', 'setImmediate'] });
  });

  afterEach(() => {
    jest.useRealTimers();
  });

  it('is held back while promises of this turn are still being settled, and no longer', async () => {
    const connection = new Connection();
    together.now(connection.client);
    for (let hop = 0; hop < 50; hop++) await Promise.resolve();
    expect(connection.corks).toBe(1);
    await turnOver();
    expect(connection.corks).toBe(0);
  });

  it('goes out with the next use of the connection', async () => {
    const connection = new Connection();
    together.soon(connection.client);
    await turnOver();
    expect(connection.corks).toBe(1);
    pool.emit('acquire', connection.client);
    await turnOver();
    expect(connection.corks).toBe(0);
  });

  it('goes out by itself when nobody uses the connection', async () => {
    const connections = [new Connection(), new Connection()];
    for (const { client } of connections) together.soon(client);
    await turnOver();
    jest.advanceTimersByTime(2);
    expect(connections.map(({ corks }) => corks)).toEqual([0, 0]);
    const later = new Connection();
    together.soon(later.client);
    jest.advanceTimersByTime(2);
    expect(later.corks).toBe(0);
  });

  it('goes out once: a use after its time finds nothing held back', async () => {
    const connection = new Connection();
    together.soon(connection.client);
    jest.advanceTimersByTime(2);
    pool.emit('acquire', connection.client);
    await turnOver();
    expect(connection.corks).toBe(0);
  });
});
