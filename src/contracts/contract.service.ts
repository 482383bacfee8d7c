import { Injectable } from '@nestjs/common';
import { ComputeService } from '../compute/compute.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { JobService } from '../jobs/job.service.js';
import { Clock } from '../shared/clock.js';
import {
  ConflictError,
  type FieldError,
  InvalidInputError,
  NotFoundError,
  StaleVersionError,
} from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import { patchFields } from '../shared/validation.js';
import { withoutFirm } from '../shared/without-firm.js';
import { checkContract } from './check-contract.js';
import { ContractReferenceService } from './contract-reference.service.js';
import { REFUSE_REGION } from './contract-tasks.js';
import {
  type ContractDto,
  ContractFieldsDto,
  type ContractQueryDto,
  type CreateContractDto,
  type RenewContractDto,
} from './contract.dto.js';
import type { Contract } from './contract.entity.js';
import { ContractRepository, type SitedContract } from './contract.repository.js';
import { nextTerm } from './contract-year.js';

/** Keeps contracts: adds, reads, changes and renews them. */
@Injectable()
export class ContractService {
  constructor(
    private readonly contracts: ContractRepository,
    private readonly references: ContractReferenceService,
    private readonly transaction: FirmTransaction,
    private readonly compute: ComputeService,
    private readonly jobs: JobService,
    private readonly clock: Clock,
  ) {}

  async create({ id, ...fields }: CreateContractDto): Promise<ContractDto> {
    await this.checkTerms(fields);
    return this.transaction.write(() => this.insert(id, fields, null));
  }

  async get(id: string): Promise<ContractDto> {
    return toDto(await this.find(id));
  }

  /** In force on a day of the time, half-open; those that began first first. */
  listCovering(from: string, until: string, count: number): Promise<Contract[]> {
    return this.contracts.listCovering(from, until, count);
  }

  async list({ after, limit, ...filter }: ContractQueryDto): Promise<Page<ContractDto>> {
    const contracts = await this.contracts.list(filter, decodeCursor(after, 2), limit + 1);
    return toPage(contracts, limit, ({ from, id }) => [from, id], toDto);
  }

  async change(id: string, version: number, patch: Record<string, unknown>): Promise<ContractDto> {
    const contract = await this.transaction.read(() => this.find(id));
    if (contract.version !== version) throw new StaleVersionError(contract.version);
    const fields = await patchFields(ContractFieldsDto, contract, patch);
    await this.checkTerms(fields);
    return this.transaction.write(async () => {
      await this.references.check(fields);
      const changed = { ...contract, ...fields, version: version + 1 };
      await this.contracts.update(changed, version);
      const sites = new Set([...contract.siteIds, ...changed.siteIds]);
      for (const siteId of sites) await this.jobs.enqueue('promise-clocks', { siteId });
      return toDto(changed);
    });
  }

  /** Makes the next contract from this one: from the day it ends, for as long, and otherwise only as is said. */
  async renew(id: string, { id: nextId, ...changes }: RenewContractDto): Promise<ContractDto> {
    const contract = await this.transaction.read(() => this.find(id));
    const current = { ...contract, ...nextTerm(contract) };
    const given = Object.entries(changes).filter(([, value]) => value !== undefined);
    const fields = await patchFields(ContractFieldsDto, current, Object.fromEntries(given));
    await this.checkTerms(fields);
    return this.transaction.write(async () => {
      const next = await this.contracts.findRenewal(id);
      if (next !== null) {
        throw new ConflictError(`It was renewed already: "${next.title}" follows it.`, {
          contractId: next.id,
        });
      }
      return this.insert(nextId, fields, id);
    });
  }

  /** Every contract that ever covered a site, oldest first. */
  async listOfSite(siteId: string): Promise<SitedContract[]> {
    return this.contracts.listOfSite(siteId);
  }

  async find(id: string): Promise<SitedContract> {
    const contract = await this.contracts.find(id);
    if (contract === null) throw new NotFoundError('contract', id);
    return contract;
  }

  private async insert(
    id: string | undefined,
    fields: ContractFieldsDto,
    renewedFrom: string | null,
  ): Promise<ContractDto> {
    await this.references.check(fields);
    const createdAt = this.clock.now();
    const contract = { ...fields, id: idOrNew(id), renewedFrom, version: 1, createdAt };
    await this.contracts.insert(contract);
    for (const siteId of fields.siteIds) await this.jobs.enqueue('promise-clocks', { siteId });
    return { ...contract, siteIds: contract.siteIds.toSorted() };
  }

  /** What can be checked without the database; the table of the world's holidays is a thread's to load. */
  private async checkTerms(fields: ContractFieldsDto): Promise<void> {
    const errors: FieldError[] = checkContract(fields);
    const { publicHolidays } = fields.coverage;
    if (publicHolidays !== null) {
      const { country, region } = publicHolidays;
      const refused = await this.compute.run(REFUSE_REGION, { country, region });
      if (refused !== null) {
        const { field, reason } = refused;
        errors.push({ field: `/coverage/publicHolidays/${field}`, reason });
      }
    }
    if (errors.length > 0) throw new InvalidInputError(errors);
  }
}

function toDto({ siteIds, ...contract }: SitedContract): ContractDto {
  return { ...withoutFirm(contract), siteIds: siteIds.toSorted() };
}
