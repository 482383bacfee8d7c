import { Injectable } from '@nestjs/common';
import { ContractAccountService } from '../contracts/contract-account.service.js';
import { WorkTimesService } from '../work-times/work-times.service.js';
import { usualMinutes } from '../work-times/work-times.js';
import { ReviewRepository } from './review.repository.js';
import type { FirmCosts } from './review-question.js';

/** Reads what work takes and costs at the firm; within a transaction. */
@Injectable()
export class FirmCostsService {
  constructor(
    private readonly facts: ReviewRepository,
    private readonly accounts: ContractAccountService,
    private readonly workTimes: WorkTimesService,
  ) {}

  async read(): Promise<FirmCosts> {
    const { version, ...prices } = await this.accounts.prices();
    const times = await this.workTimes.times();
    return {
      ...(await this.facts.workRecord()),
      prices: version === 0 ? null : prices,
      times,
      usualCallOutMinutes: usualMinutes({ findings: 1, mendings: 1 }, times),
    };
  }
}
