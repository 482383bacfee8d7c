import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { findById } from '../database/find-by-id.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { StaleVersionError } from '../shared/domain-error.js';
import { Site } from './site.entity.js';

@Injectable()
export class SiteRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(site: Omit<Site, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(Site, { ...site });
  }

  find(id: string): Promise<Site | null> {
    return findById(this.transaction, Site, id);
  }

  async listOfIds(ids: readonly string[]): Promise<Site[]> {
    const manager = await this.transaction.manager();
    return manager.findBy(Site, { id: In(ids) });
  }

  /** Holds the site for the rest of the transaction; rows that refer to it may still be added. */
  async findAndLock(id: string): Promise<Site | null> {
    const manager = await this.transaction.manager();
    return manager.findOne(Site, { where: { id }, lock: { mode: 'for_no_key_update' } });
  }

  /** By name, then id; at most `count`, after the given sort key. */
  async list(
    clientId: string | undefined,
    after: string[] | undefined,
    count: number,
  ): Promise<Site[]> {
    const manager = await this.transaction.manager();
    const query = manager.createQueryBuilder(Site, 'site');
    if (clientId !== undefined) query.andWhere('site.clientId = :clientId', { clientId });
    if (after !== undefined) {
      query.andWhere('(site.name, site.id) > (:name, :id)', { name: after[0], id: after[1] });
    }
    return query.orderBy('site.name').addOrderBy('site.id').limit(count).getMany();
  }

  /** Saves what a site's own version covers: the as-built record may change at the same time. */
  async update(site: Site, expectedVersion: number): Promise<void> {
    const manager = await this.transaction.manager();
    const { id, asBuiltVersion: _apart, ...columns } = site;
    const { affected } = await manager.update(Site, { id, version: expectedVersion }, columns);
    if (affected !== 1) throw new StaleVersionError(expectedVersion);
  }

  async setAsBuiltVersion(id: string, asBuiltVersion: number): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.update(Site, { id }, { asBuiltVersion });
  }
}
