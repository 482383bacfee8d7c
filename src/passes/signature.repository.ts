import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { FirmTransaction } from '../database/firm-transaction.js';
import { Signature } from './signature.entity.js';

@Injectable()
export class SignatureRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** Lets one at a time sign for a visit. */
  async lock(visitId: string): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.query(`SELECT pg_advisory_xact_lock(hashtextextended('sign ' || $1, 0))`, [
      visitId,
    ]);
  }

  async insert(signature: Omit<Signature, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(Signature, { ...signature });
  }

  /** Oldest first. */
  async listOfVisits(visitIds: string[]): Promise<Signature[]> {
    const manager = await this.transaction.manager();
    return manager.find(Signature, {
      where: { visitId: In(visitIds) },
      order: { signedAt: 'ASC', id: 'ASC' },
    });
  }
}
