import { afterEach, beforeEach, describe, expect, it, jest } from '@jest/globals';
import type { PoolClient } from 'pg';
import type { DataSource } from 'typeorm';
import { SentTogether } from './sent-together.js';

/** A pool that has a connection at once for whoever asks. */
function sender(): SentTogether {
  const client = {
    connection: { stream: { cork: () => undefined, uncork: () => undefined } },
    release: () => undefined,
  } as unknown as PoolClient;
  const pool = { connect: () => Promise.resolve(client) };
  return new SentTogether({ driver: { master: pool } } as unknown as DataSource);
}

/** Hangs until it is let go. */
class Hung {
  hasBegun = false;
  end: () => void = () => undefined;
  readonly ended: Promise<void>;

  constructor(sent: SentTogether) {
    const held = new Promise<void>((resolve) => (this.end = resolve));
    this.ended = sent.send(() => {
      this.hasBegun = true;
      return held;
    });
  }
}

/** What is to be sent now is under way. */
async function turns(): Promise<void> {
  for (let i = 0; i < 3; i++) await new Promise((resolve) => setImmediate(resolve));
}

/** Longer than a packet is waited for. */
const LATE_MS = 30;

describe('statements sent together', () => {
  beforeEach(() => {
    jest.useFakeTimers({ doNotFake: ['nextTick', 'queueMicrotask', 'setImmediate'] });
  });

  afterEach(() => {
    jest.useRealTimers();
  });

  it('go one after the other past a packet that hangs', async () => {
    const sent = sender();
    const first = new Hung(sent);
    await turns();
    const answered: string[] = [];
    for (const name of ['a', 'b', 'c', 'd', 'e']) {
      void sent.send(() => Promise.resolve(name)).then((answer) => answered.push(answer));
      await turns();
      jest.advanceTimersByTime(LATE_MS);
      await turns();
      expect(answered.at(-1)).toBe(name);
    }
    first.end();
    await first.ended;
  });

  it('are three packets at most, and the next goes when one of them ends', async () => {
    const sent = sender();
    const held: Hung[] = [];
    for (let i = 0; i < 12; i++) {
      held.push(new Hung(sent));
      await turns();
      jest.advanceTimersByTime(LATE_MS);
      await turns();
      expect(held.map(({ hasBegun }) => hasBegun)).toEqual(held.map((_, at) => at < 3));
    }
    held[1]?.end();
    await turns();
    // All that waited go together.
    expect(held.every(({ hasBegun }) => hasBegun)).toBe(true);
    for (const one of held) one.end();
    await Promise.all(held.map(({ ended }) => ended));
    expect(await sent.send(() => Promise.resolve('after'))).toBe('after');
  });

  it('wait for a packet that is answered soon, also once one that hung has ended', async () => {
    const sent = sender();
    const late = new Hung(sent);
    await turns();
    jest.advanceTimersByTime(LATE_MS);
    late.end();
    await late.ended;
    const first = new Hung(sent);
    await turns();
    const others = [new Hung(sent), new Hung(sent)];
    await turns();
    expect(others.map(({ hasBegun }) => hasBegun)).toEqual([false, false]);
    first.end();
    await turns();
    expect(others.map(({ hasBegun }) => hasBegun)).toEqual([true, true]);
    for (const other of others) other.end();
    await Promise.all(others.map(({ ended }) => ended));
  });

  it('are answered as they come, whatever stands behind them in their packet', async () => {
    const sent = sender();
    const answered: string[] = [];
    const note = (word: string) => () => void answered.push(word);
    void sent.send(() => Promise.resolve()).then(note('first'));
    void sent.send(() => Promise.reject(new Error('No such table'))).catch(note('refused'));
    const unsendable = () => {
      throw new Error('What cannot be sent');
    };
    void sent.send(unsendable).catch(note('not sent'));
    const hung = new Hung(sent);
    await turns();
    expect(answered.toSorted()).toEqual(['first', 'not sent', 'refused']);
    hung.end();
    await hung.ended;
  });
});
