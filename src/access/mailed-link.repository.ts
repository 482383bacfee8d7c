import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { MailedLink } from './mailed-link.entity.js';

@Injectable()
export class MailedLinkRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(link: Omit<MailedLink, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(MailedLink, { ...link });
  }

  /** In a transaction that finds by the secret's hash. */
  async findShown(secretHash: string): Promise<MailedLink | null> {
    const manager = await this.transaction.manager();
    return manager.findOneBy(MailedLink, { secretHash });
  }

  /** Whether it was still there: of two uses at once, one wins. */
  async delete(id: string): Promise<boolean> {
    const manager = await this.transaction.manager();
    const { affected } = await manager.delete(MailedLink, { id });
    return affected === 1;
  }

  async deleteOfPerson(personId: string): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.delete(MailedLink, { personId });
  }
}
