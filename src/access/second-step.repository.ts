import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { RecoveryCode } from './recovery-code.entity.js';

@Injectable()
export class SecondStepRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(codes: Omit<RecoveryCode, 'firmId'>[]): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(RecoveryCode, codes);
  }

  /** Whether the person had such a code; it is used up. */
  async use(personId: string, codeHash: string): Promise<boolean> {
    const manager = await this.transaction.manager();
    const { affected } = await manager.delete(RecoveryCode, { personId, codeHash });
    return affected === 1;
  }

  async deleteOfPerson(personId: string): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.delete(RecoveryCode, { personId });
  }

  /** Takes a step of the clock as used; false when this one or a later one was. */
  async takeStep(personId: string, step: number): Promise<boolean> {
    const manager = await this.transaction.manager();
    const [, taken] = await manager.query<[unknown, number]>(
      `UPDATE accounts SET totp_last_step = $2
       WHERE id = $1 AND (totp_last_step IS NULL OR totp_last_step < $2)`,
      [personId, step],
    );
    return taken === 1;
  }
}
