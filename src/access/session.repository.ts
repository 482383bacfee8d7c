import { Injectable } from '@nestjs/common';
import { LessThan, Not } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { Session } from './session.entity.js';

@Injectable()
export class SessionRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(session: Omit<Session, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(Session, { ...session });
  }

  async find(id: string): Promise<Session | null> {
    const manager = await this.transaction.manager();
    return manager.findOneBy(Session, { id });
  }

  /** In a transaction that finds by the secret's hash. */
  async findShown(secretHash: string): Promise<Session | null> {
    const manager = await this.transaction.manager();
    return manager.findOneBy(Session, { secretHash });
  }

  /** Newest use first. */
  async listOfPerson(personId: string): Promise<Session[]> {
    const manager = await this.transaction.manager();
    return manager.find(Session, { where: { personId }, order: { lastSeenAt: 'DESC', id: 'ASC' } });
  }

  /** Whether there was such a session of this person. */
  async delete(id: string, personId: string): Promise<boolean> {
    const manager = await this.transaction.manager();
    const { affected } = await manager.delete(Session, { id, personId });
    return affected === 1;
  }

  /** All of a person's sessions, or all but one. */
  async deleteOfPerson(personId: string, except?: string): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.delete(Session, {
      personId,
      ...(except === undefined ? {} : { id: Not(except) }),
    });
  }

  /** Of everybody in the firm. */
  async deleteAllOver(now: Date): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.delete(Session, { endsAt: LessThan(now) });
  }

  async deleteOver(personId: string, now: Date): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.delete(Session, { personId, endsAt: LessThan(now) });
  }
}
