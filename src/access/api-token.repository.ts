import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { ApiToken } from './api-token.entity.js';

@Injectable()
export class ApiTokenRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(token: Omit<ApiToken, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(ApiToken, { ...token });
  }

  async countOfPerson(personId: string): Promise<number> {
    const manager = await this.transaction.manager();
    return manager.countBy(ApiToken, { personId });
  }

  /** Oldest first; of one person, or of all. */
  async list(personId: string | undefined): Promise<ApiToken[]> {
    const manager = await this.transaction.manager();
    const where = personId === undefined ? {} : { personId };
    return manager.find(ApiToken, { where, order: { createdAt: 'ASC', id: 'ASC' } });
  }

  /** Whether there was such a token, of this person if one is named. */
  async delete(id: string, personId: string | undefined): Promise<boolean> {
    const manager = await this.transaction.manager();
    const { affected } = await manager.delete(ApiToken, {
      id,
      ...(personId === undefined ? {} : { personId }),
    });
    return affected === 1;
  }

  async deleteOfPerson(personId: string): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.delete(ApiToken, { personId });
  }
}
