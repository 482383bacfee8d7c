import { Injectable } from '@nestjs/common';
import { In, LessThan, MoreThan } from 'typeorm';
import { findById } from '../database/find-by-id.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { StaleVersionError } from '../shared/domain-error.js';
import type { CoverageWindow } from './coverage.js';
import { ContractSite } from './contract-site.entity.js';
import { Contract } from './contract.entity.js';

export interface ContractFilter {
  client?: string;
  site?: string;
  on?: string;
}

/** A contract with its sites, in the order of their ids. */
export type SitedContract = Contract & { siteIds: string[] };

/** Of one site, ever. */
const MOST_OF_SITE = 1000;

@Injectable()
export class ContractRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert({ siteIds, ...contract }: Omit<SitedContract, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(Contract, { ...contract });
    await this.insertSites(contract.id, siteIds);
  }

  async find(id: string): Promise<SitedContract | null> {
    const contract = await findById(this.transaction, Contract, id);
    return contract && ((await this.withSites([contract]))[0] ?? null);
  }

  /** Those that began last first; at most `count`, after the given sort key. */
  async list(
    { client, site, on }: ContractFilter,
    after: string[] | undefined,
    count: number,
  ): Promise<SitedContract[]> {
    const manager = await this.transaction.manager();
    const query = manager.createQueryBuilder(Contract, 'contract');
    if (client !== undefined) query.andWhere('contract.clientId = :client', { client });
    if (on !== undefined) query.andWhere('contract.from <= :on AND contract.until > :on', { on });
    if (site !== undefined) {
      const ofSite = query.subQuery().select('of.contractId').from(ContractSite, 'of');
      query.andWhere(`contract.id IN ${ofSite.where('of.siteId = :site').getQuery()}`, { site });
    }
    if (after !== undefined) {
      const [from, id] = after;
      query.andWhere('(contract.from, contract.id) < (:from, :id)', { from, id });
    }
    query.orderBy('contract.from', 'DESC').addOrderBy('contract.id', 'DESC');
    return this.withSites(await query.limit(count).getMany());
  }

  /** Every contract that ever covered a site, oldest first. */
  async listOfSite(siteId: string): Promise<SitedContract[]> {
    return (await this.listOfSites([siteId])).get(siteId) ?? [];
  }

  /** The same of several, by site. */
  async listOfSites(siteIds: readonly string[]): Promise<Map<string, SitedContract[]>> {
    const manager = await this.transaction.manager();
    const query = manager.createQueryBuilder(Contract, 'contract');
    const ofSites = query.subQuery().select('of.contractId').from(ContractSite, 'of');
    query
      .where(`contract.id IN ${ofSites.where('of.siteId = ANY (:siteIds)').getQuery()}`, {
        siteIds,
      })
      .orderBy('contract.from', 'DESC')
      .addOrderBy('contract.id', 'DESC');
    const all = await this.withSites(await query.limit(MOST_OF_SITE * siteIds.length).getMany());
    const oldestFirst = all.toReversed();
    return new Map(
      siteIds.map((siteId) => [siteId, oldestFirst.filter((one) => one.siteIds.includes(siteId))]),
    );
  }

  /** In force on a day of the time, half-open; those that began first first. */
  async listCovering(from: string, until: string, count: number): Promise<Contract[]> {
    const manager = await this.transaction.manager();
    return manager.find(Contract, {
      where: { from: LessThan(until), until: MoreThan(from) },
      order: { from: 'ASC', id: 'ASC' },
      take: count,
    });
  }

  /** The hours for visits of each of the sites by the contract in force on a day, where the visits’ own are none the covered ones. */
  async visitWindows(siteIds: string[], day: string): Promise<Map<string, CoverageWindow[]>> {
    const manager = await this.transaction.manager();
    const rows = await manager.query<{ siteId: string; windows: CoverageWindow[] }[]>(
      `SELECT DISTINCT ON (s.site_id) s.site_id AS "siteId",
         coalesce(nullif(c.visit_hours -> 'windows', '[]'), c.coverage -> 'windows') AS windows
       FROM contract_sites s JOIN contracts c ON c.id = s.contract_id
       WHERE s.site_id = ANY ($1) AND c."from" <= $2 AND c.until > $2
       ORDER BY s.site_id, c."from" DESC, c.id`,
      [siteIds, day],
    );
    return new Map(rows.map(({ siteId, windows }) => [siteId, windows]));
  }

  /** The contract that followed this one. */
  async findRenewal(id: string): Promise<Contract | null> {
    const manager = await this.transaction.manager();
    return manager.findOneBy(Contract, { renewedFrom: id });
  }

  async update({ siteIds, ...contract }: SitedContract, expectedVersion: number): Promise<void> {
    const manager = await this.transaction.manager();
    const { firmId: _firmId, id, ...columns } = contract;
    const { affected } = await manager.update(Contract, { id, version: expectedVersion }, columns);
    if (affected !== 1) throw new StaleVersionError(expectedVersion);
    await manager.delete(ContractSite, { contractId: id });
    await this.insertSites(id, siteIds);
  }

  private async insertSites(contractId: string, siteIds: string[]): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(
      ContractSite,
      siteIds.map((siteId) => ({ contractId, siteId })),
    );
  }

  private async withSites(contracts: Contract[]): Promise<SitedContract[]> {
    if (contracts.length === 0) return [];
    const manager = await this.transaction.manager();
    const rows = await manager.find(ContractSite, {
      where: { contractId: In(contracts.map(({ id }) => id)) },
      order: { siteId: 'ASC' },
    });
    return contracts.map((contract) => ({
      ...contract,
      siteIds: rows.flatMap(({ contractId, siteId }) => (contractId === contract.id ? siteId : [])),
    }));
  }
}
