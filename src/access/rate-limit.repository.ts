import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';

/** Counts outside of any firm's transaction: what is rolled back counts too. */
@Injectable()
export class RateLimitRepository {
  constructor(private readonly dataSource: DataSource) {}

  /** Adds to a window's count, which every process shares; answers with the sum. */
  async add(key: string, windowStart: Date, count: number): Promise<number> {
    const [row] = await this.dataSource.query<{ count: number }[]>(
      `INSERT INTO guard.counts AS counts (key, window_start, count) VALUES ($1, $2, $3)
       ON CONFLICT (key, window_start) DO UPDATE SET count = counts.count + $3 RETURNING count`,
      [key, windowStart, count],
    );
    return row?.count ?? count;
  }

  async forgetBefore(windowStart: Date): Promise<void> {
    await this.dataSource.query('DELETE FROM guard.counts WHERE window_start < $1', [windowStart]);
  }

  async failures(keys: string[]): Promise<{ key: string; count: number; lastAt: Date }[]> {
    return this.dataSource.query(
      'SELECT key, count, last_at AS "lastAt" FROM guard.failed_sign_ins WHERE key = ANY ($1)',
      [keys],
    );
  }

  async addFailure(key: string, at: Date): Promise<void> {
    await this.dataSource.query(
      `INSERT INTO guard.failed_sign_ins AS failed (key, count, last_at) VALUES ($1, 1, $2)
       ON CONFLICT (key) DO UPDATE SET count = failed.count + 1, last_at = $2`,
      [key, at],
    );
  }

  async forgetFailures(keys: string[], before: Date): Promise<void> {
    await this.dataSource.query(
      'DELETE FROM guard.failed_sign_ins WHERE key = ANY ($1) OR last_at < $2',
      [keys, before],
    );
  }
}
