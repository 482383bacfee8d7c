import { Injectable } from '@nestjs/common';
import { ComputeService } from '../compute/compute.service.js';
import { ContractService } from '../contracts/contract.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { HistoryService } from '../history/history.service.js';
import { FirmCostsService } from './firm-costs.service.js';
import { ReviewedSitesService } from './reviewed-sites.service.js';
import type { ShouldCostQuestion } from './should-cost.js';
import type { ShouldCostDto, ShouldCostQueryDto } from './should-cost.dto.js';
import { SHOULD_COST } from './review-tasks.js';

/** What a contract should cost: read, then drawn on the pool. */
@Injectable()
export class ShouldCostService {
  constructor(
    private readonly contracts: ContractService,
    private readonly sites: ReviewedSitesService,
    private readonly history: HistoryService,
    private readonly costs: FirmCostsService,
    private readonly transaction: FirmTransaction,
    private readonly compute: ComputeService,
  ) {}

  async ofContract(contractId: string): Promise<ShouldCostDto> {
    const question = await this.transaction.read(async () => {
      const { siteIds, visitsPerYear, kind, ...fee } = await this.contracts.find(contractId);
      return this.read({ sites: siteIds, visitsPerYear, kind }, fee);
    });
    return this.compute.run(SHOULD_COST, question);
  }

  async ofSites(query: ShouldCostQueryDto): Promise<ShouldCostDto> {
    const question = await this.transaction.read(() => this.read(query, null));
    return this.compute.run(SHOULD_COST, question);
  }

  private async read(
    { sites: siteIds, visitsPerYear, kind }: ShouldCostQueryDto,
    fee: { feeMinor: number; currency: string } | null,
  ): Promise<ShouldCostQuestion> {
    const costs = await this.costs.read();
    return {
      sites: await this.sites.read(siteIds),
      rates: await this.history.ratesAt(siteIds),
      costs,
      visitsPerYear,
      withParts: kind === 'comprehensive',
      feeMinor: fee !== null && fee.currency === costs.prices?.currency ? fee.feeMinor : null,
    };
  }
}
