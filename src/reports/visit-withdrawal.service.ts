import { Injectable } from '@nestjs/common';
import { JobService } from '../jobs/job.service.js';
import { Clock } from '../shared/clock.js';
import { happenedAt } from '../shared/happened-at.js';
import { idOrNew } from '../shared/new-id.js';
import { withoutFirm } from '../shared/without-firm.js';
import type { VisitWithdrawal } from './visit-withdrawal.entity.js';
import type { WithdrawnOnVisit } from './withdrawal.js';
import { VisitWithdrawalRepository } from './visit-withdrawal.repository.js';
import type { WithdrawDto } from './withdrawal.dto.js';

/** A withdrawal as it is kept. */
export type KeptVisitWithdrawal = VisitWithdrawal;

/** Keeps who took back what was entered on a visit, whether the visit is about a ticket or not. */
@Injectable()
export class VisitWithdrawalService {
  constructor(
    private readonly withdrawals: VisitWithdrawalRepository,
    private readonly jobs: JobService,
    private readonly clock: Clock,
  ) {}

  /** Gives the entry: what is taken back is locked, and is to name it. */
  async write(
    visit: { id: string; siteId: string },
    what: WithdrawnOnVisit,
    withdrawnId: string,
    { id: sentId, saidBy, saidAt, reason }: WithdrawDto,
  ): Promise<Omit<VisitWithdrawal, 'firmId'>> {
    const now = this.clock.now();
    const id = idOrNew(sentId);
    const withdrawal = {
      id,
      visitId: visit.id,
      what,
      withdrawnId,
      saidBy: saidBy.name,
      saidByKind: saidBy.kind,
      happenedAt: happenedAt('/saidAt', saidAt, now),
      recordedAt: now,
      reason,
    };
    await this.withdrawals.insert(withdrawal);
    await this.jobs.enqueue('locations', { siteId: visit.siteId });
    return withdrawal;
  }

  listOfIds(ids: string[]): Promise<VisitWithdrawal[]> {
    return this.withdrawals.listOfIds(ids);
  }

  /** As recorded; the newest `count`. */
  async listOfVisit(visitId: string, count: number): Promise<Omit<VisitWithdrawal, 'firmId'>[]> {
    const rows = await this.withdrawals.listOfVisit(visitId, count);
    return rows.map(withoutFirm);
  }
}
