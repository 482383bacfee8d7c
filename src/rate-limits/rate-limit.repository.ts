import { Injectable } from '@nestjs/common';
import { RateLimiterPostgres, RateLimiterRes } from 'rate-limiter-flexible';
import { DataSource } from 'typeorm';
import { SentTogether } from '../database/sent-together.js';
import type { RateLimit } from './rate-limit.js';
import type { DelayRule } from './sign-in-delay.js';

/** With a method that the library's types leave out. */
type Limiter = RateLimiterPostgres & { getInMemoryBlockMsBeforeExpire(key: string): number };

/** What is counted of failures with one key. */
export interface Failures {
  count: number;
  lastAt: Date;
}

/** Counts outside of any firm's transaction: what is rolled back counts too. */
@Injectable()
export class RateLimitRepository {
  private readonly limiters = new Map<string, Limiter>();

  constructor(
    private readonly dataSource: DataSource,
    private readonly sent: SentTogether,
  ) {}

  /** Calls when the next counts are sent: who asks until then is counted with them. */
  whenCounting(count: () => void): void {
    this.sent.whenSending(count);
  }

  /** Whether this process knows the key to be used up, without asking. */
  isUsedUp(rateLimit: RateLimit, key: string): boolean {
    const limiter = this.limiterOf(rateLimit);
    return limiter.getInMemoryBlockMsBeforeExpire(limiter.getKey(key)) > 0;
  }

  /** Adds to a count that every process shares; answers with the sum, infinite where it is known to be over. */
  async add(rateLimit: RateLimit, key: string, count: number): Promise<number> {
    try {
      return (await this.limiterOf(rateLimit).consume(key, count)).consumedPoints;
    } catch (error) {
      if (!(error instanceof RateLimiterRes)) throw error;
      return error.consumedPoints > 0 ? error.consumedPoints : Infinity;
    }
  }

  /** Never fails: what is not forgotten now is the next time. */
  async forgetOver(): Promise<void> {
    await this.dataSource
      .query('DELETE FROM guard.limits WHERE expire < $1', [Date.now()])
      .catch(() => undefined);
  }

  /**
   * Counts one more try as failed before it is known to be, unless it is too early for one: of many at
   * once no more get through than one after the other. Null: it is too early.
   */
  async takeTry(
    key: string,
    { free, firstSeconds, longestSeconds }: DelayRule,
    at: Date,
  ): Promise<{ before: Date | null } | null> {
    const [row] = await this.dataSource.query<{ before: Date | null }[]>(
      `WITH earlier AS (SELECT last_at FROM guard.failed_sign_ins WHERE key = $1)
       INSERT INTO guard.failed_sign_ins AS failed (key, count, last_at) VALUES ($1, 1, $2)
       ON CONFLICT (key) DO UPDATE SET count = failed.count + 1, last_at = $2
       WHERE failed.count < $3 OR $2 >= failed.last_at
         + make_interval(secs => least($4 * 2.0 ^ least(failed.count - $3, 20), $5)::float8)
       RETURNING (SELECT last_at FROM earlier) AS before`,
      [key, at, free, firstSeconds, longestSeconds],
    );
    return row ?? null;
  }

  /** Takes a try back; when nobody has tried since, also that it was now. */
  async giveTryBack(key: string, at: Date, before: Date | null): Promise<void> {
    await this.dataSource.query(
      `UPDATE guard.failed_sign_ins SET count = greatest(count - 1, 0),
         last_at = CASE WHEN last_at = $2 THEN coalesce($3, last_at) ELSE last_at END
       WHERE key = $1`,
      [key, at, before],
    );
  }

  async failures(key: string): Promise<Failures | undefined> {
    const [row] = await this.dataSource.query<Failures[]>(
      'SELECT count, last_at AS "lastAt" FROM guard.failed_sign_ins WHERE key = $1',
      [key],
    );
    return row;
  }

  async forgetFailures(keys: string[], before: Date): Promise<void> {
    await this.dataSource.query(
      'DELETE FROM guard.failed_sign_ins WHERE key = ANY ($1) OR last_at < $2',
      [keys, before],
    );
  }

  private limiterOf({ name, limit, windowSeconds }: RateLimit): Limiter {
    const known = this.limiters.get(name);
    if (known !== undefined) return known;
    const limiter = new RateLimiterPostgres({
      storeClient: this.sent,
      storeType: 'client',
      schemaName: 'guard',
      tableName: 'limits',
      tableCreated: true,
      clearExpiredByTimeout: false,
      keyPrefix: name,
      points: limit,
      inMemoryBlockOnConsumed: limit,
      // Keys hold their window, which the app's clock says; the row must only outlive it.
      duration: 2 * windowSeconds,
    }) as Limiter;
    this.limiters.set(name, limiter);
    return limiter;
  }
}
