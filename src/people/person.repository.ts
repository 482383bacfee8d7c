import { Injectable } from '@nestjs/common';
import { findById } from '../database/find-by-id.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { StaleVersionError } from '../shared/domain-error.js';
import { Person } from './person.entity.js';
import type { Work } from './roles.js';

/** The firm's own people, and those of its clients, are rows of one table. */
@Injectable()
export class PersonRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(person: Omit<Person, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(Person, { ...person });
  }

  find(id: string): Promise<Person | null> {
    return findById(this.transaction, Person, id);
  }

  /** By name, then id, the firm's own people only; at most `count`, after the given sort key. */
  async list(
    work: Work | undefined,
    after: string[] | undefined,
    count: number,
  ): Promise<Person[]> {
    const manager = await this.transaction.manager();
    const query = manager.createQueryBuilder(Person, 'person').where('person.clientId IS NULL');
    if (work !== undefined) query.andWhere('person.work = :work', { work });
    if (after !== undefined) {
      query.andWhere('(person.name, person.id) > (:name, :id)', { name: after[0], id: after[1] });
    }
    return query.orderBy('person.name').addOrderBy('person.id').limit(count).getMany();
  }

  async update(person: Person, expectedVersion: number): Promise<void> {
    const manager = await this.transaction.manager();
    const { id, ...columns } = person;
    const { affected } = await manager.update(Person, { id, version: expectedVersion }, columns);
    if (affected !== 1) throw new StaleVersionError(expectedVersion);
  }
}
