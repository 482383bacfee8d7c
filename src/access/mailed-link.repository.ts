import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { MailedLink } from './mailed-link.entity.js';

@Injectable()
export class MailedLinkRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** In place of the one of its kind that the person had. */
  async replace({
    id,
    secretHash,
    personId,
    kind,
    endsAt,
  }: Omit<MailedLink, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.query(
      `INSERT INTO mailed_links (id, secret_hash, person_id, kind, ends_at) VALUES ($1, $2, $3, $4, $5)
       ON CONFLICT (firm_id, person_id, kind)
       DO UPDATE SET id = excluded.id, secret_hash = excluded.secret_hash, ends_at = excluded.ends_at`,
      [id, secretHash, personId, kind, endsAt],
    );
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
