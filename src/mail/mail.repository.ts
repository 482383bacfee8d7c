import { Injectable } from '@nestjs/common';
import { findById } from '../database/find-by-id.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { Mail } from './mail.entity.js';

@Injectable()
export class MailRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(mail: Omit<Mail, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(Mail, { ...mail });
  }

  find(id: string): Promise<Mail | null> {
    return findById(this.transaction, Mail, id);
  }

  async update(id: string, columns: Partial<Omit<Mail, 'firmId' | 'id'>>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.update(Mail, { id }, columns);
  }

  /** Newest first; at most `count`, below the given sort key. */
  async list(below: string[] | undefined, count: number): Promise<Mail[]> {
    const manager = await this.transaction.manager();
    const query = manager.createQueryBuilder(Mail, 'mail');
    if (below !== undefined) {
      query.where('(mail.createdAt, mail.id) < (:at, :id)', { at: below[0], id: below[1] });
    }
    return query
      .orderBy('mail.createdAt', 'DESC')
      .addOrderBy('mail.id', 'DESC')
      .limit(count)
      .getMany();
  }
}
