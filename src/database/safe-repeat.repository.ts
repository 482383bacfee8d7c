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
    id: string,
    route: string,
    contentHash: string,
  ): Promise<ReceivedRequest | undefined> {
    const manager = await this.transaction.manager();
    const inserted = await manager.query<unknown[]>(
      `INSERT INTO received_requests (id, route, content_hash) VALUES ($1, $2, $3)
       ON CONFLICT DO NOTHING RETURNING id`,
      [id, route, contentHash],
    );
    if (inserted.length > 0) return undefined;
    return manager.findOneByOrFail(ReceivedRequest, { id });
  }

  async keepAnswer(id: string, answer: string): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.update(ReceivedRequest, { id }, { answer });
  }
}
