import { Injectable } from '@nestjs/common';
import { FirmTransaction } from './firm-transaction.js';
import { ReceivedRequest } from './received-request.entity.js';

@Injectable()
export class SafeRepeatRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /**
   * Claims the id for this request. Undefined: it is new. Otherwise the request that had it before;
   * one that is just being answered is waited for, because the insert waits for its commit.
   */
  async claim(
    {
      id,
      sender,
      route,
      contentHash,
    }: Omit<ReceivedRequest, 'firmId' | 'receivedAt' | 'answer' | 'isFinished'>,
    receivedAt: Date,
  ): Promise<ReceivedRequest | undefined> {
    const manager = await this.transaction.manager();
    const inserted = await manager.query<unknown[]>(
      `INSERT INTO received_requests (id, sender, route, content_hash, received_at)
       VALUES ($1, $2, $3, $4, $5)
       ON CONFLICT DO NOTHING RETURNING id`,
      [id, sender, route, contentHash, receivedAt],
    );
    if (inserted.length > 0) return undefined;
    return manager.findOneByOrFail(ReceivedRequest, { id });
  }

  keepAnswer(id: string, answer: string, isFinished: boolean): void {
    this.transaction.writeLater(
      'UPDATE received_requests SET answer = $2, is_finished = $3 WHERE id = $1',
      [id, answer, isFinished],
    );
  }

  /** What the firm was sent before then; how many that were. */
  async forgetBefore(receivedAt: Date, atMost: number): Promise<number> {
    const manager = await this.transaction.manager();
    const [, forgotten] = await manager.query<[unknown, number]>(
      `DELETE FROM received_requests WHERE id IN (
         SELECT id FROM received_requests WHERE received_at < $1 ORDER BY received_at LIMIT $2)`,
      [receivedAt, atMost],
    );
    return forgotten;
  }
}
