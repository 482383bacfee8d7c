import { Injectable } from '@nestjs/common';
import { findById } from '../database/find-by-id.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { StaleVersionError } from '../shared/domain-error.js';
import { Client } from './client.entity.js';

@Injectable()
export class ClientRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(client: Omit<Client, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(Client, { ...client });
  }

  find(id: string): Promise<Client | null> {
    return findById(this.transaction, Client, id);
  }

  /** By name, then id; at most `count`, after the given sort key. */
  async list(after: string[] | undefined, count: number): Promise<Client[]> {
    const manager = await this.transaction.manager();
    const query = manager.createQueryBuilder(Client, 'client');
    if (after !== undefined) {
      query.andWhere('(client.name, client.id) > (:name, :id)', { name: after[0], id: after[1] });
    }
    return query.orderBy('client.name').addOrderBy('client.id').limit(count).getMany();
  }

  async update(client: Client, expectedVersion: number): Promise<void> {
    const manager = await this.transaction.manager();
    const { id, ...columns } = client;
    const { affected } = await manager.update(Client, { id, version: expectedVersion }, columns);
    if (affected !== 1) throw new StaleVersionError(expectedVersion);
  }
}
