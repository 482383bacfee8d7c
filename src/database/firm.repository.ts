import { Injectable } from '@nestjs/common';
import { FirmTransaction } from './firm-transaction.js';
import { StaleVersionError } from '../shared/domain-error.js';
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

  /** The firm of the running transaction. */
  async get(): Promise<Firm> {
    return (await this.transaction.manager()).findOneByOrFail(Firm, {});
  }

  /** Of two who change one version at once, one is stale. */
  async change({ name, phone }: Pick<Firm, 'name' | 'phone'>, version: number): Promise<void> {
    const manager = await this.transaction.manager();
    const changed = { name, phone, version: version + 1 };
    const { affected } = await manager.update(Firm, { version }, changed);
    if (affected !== 1) throw new StaleVersionError(version);
  }
}
