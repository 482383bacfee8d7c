import { Injectable } from '@nestjs/common';
import { IsNull, LessThan } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { PassSession } from './pass-session.entity.js';
import { SitePass } from './site-pass.entity.js';

/** Each new one ends those before it, which stay for the record. */
const MOST_LISTED = 100;

@Injectable()
export class SitePassRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(pass: Omit<SitePass, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(SitePass, { ...pass });
  }

  async find(id: string): Promise<SitePass | null> {
    const manager = await this.transaction.manager();
    return manager.findOneBy(SitePass, { id });
  }

  /** In a transaction that finds by the secret's hash. */
  async findShown(secretHash: string): Promise<SitePass | null> {
    const manager = await this.transaction.manager();
    return manager.findOneBy(SitePass, { secretHash });
  }

  /** Newest first, so the one that works, if there is one, is the first. */
  async listOfSite(siteId: string): Promise<SitePass[]> {
    const manager = await this.transaction.manager();
    return manager.find(SitePass, {
      where: { siteId },
      order: { createdAt: 'DESC', id: 'DESC' },
      take: MOST_LISTED,
    });
  }

  async end(id: string, endedAt: Date): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.update(SitePass, { id, endedAt: IsNull() }, { endedAt });
  }

  async endOfSite(siteId: string, endedAt: Date): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.update(SitePass, { siteId, endedAt: IsNull() }, { endedAt });
  }

  async insertSession(session: Omit<PassSession, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(PassSession, { ...session });
  }

  /** Of one pass, or of all. */
  async deleteSessionsOver(passId: string | undefined, now: Date): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.delete(PassSession, {
      ...(passId !== undefined && { passId }),
      endsAt: LessThan(now),
    });
  }
}
