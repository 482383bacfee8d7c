import { Injectable } from '@nestjs/common';
import { FirmTransaction } from './firm-transaction.js';
import { Firm } from './firm.entity.js';

@Injectable()
export class FirmRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** Until the transaction ends nobody else has it. */
  async lock(): Promise<void> {
    await (await this.transaction.manager()).query('SELECT FROM firms FOR UPDATE');
  }

  /** Adds the firm of the running transaction, unless it is there already. */
  async ensure(name: string, createdAt: Date): Promise<void> {
    const manager = await this.transaction.manager();
    await manager
      .createQueryBuilder()
      .insert()
      .into(Firm)
      .values({ name, createdAt })
      .orIgnore()
      .execute();
  }
}
