import { Injectable, Logger } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { SafeRepeatService } from '../database/safe-repeat.service.js';
import type { ReportDto } from '../reports/report.dto.js';
import { BusyError } from '../shared/domain-error.js';
import { ReportService, type SharedReport } from '../tickets/report.service.js';
import { LocationService, NOTHING_TOLD } from './location.service.js';
import type { ReportAnswerDto } from './report-answer.dto.js';

/** Answers a report with what is worth checking now and who contradicts whom: worked out after its commit. */
@Injectable()
export class ReportAnswerService {
  private readonly logger = new Logger('Reports');

  constructor(
    private readonly reports: ReportService,
    private readonly location: LocationService,
    private readonly transaction: FirmTransaction,
    private readonly repeats: SafeRepeatService,
  ) {}

  async report(siteId: string, report: ReportDto): Promise<ReportAnswerDto> {
    const shared = await this.transaction.write(() => this.reports.reportSite(siteId, report));
    if (this.repeats.isFinished()) return shared as ReportAnswerDto;
    try {
      return await this.complete(shared);
    } catch (error) {
      // The report is taken: that there is no time for checks now must not look as if it were not.
      if (!(error instanceof BusyError)) this.logger.error(error);
      return { ...shared, tickets: shared.tickets.map((one) => ({ ...one, ...NOTHING_TOLD })) };
    }
  }

  private async complete({ id, tickets }: SharedReport): Promise<ReportAnswerDto> {
    const asked = await this.transaction.read(async () => {
      const list = [];
      for (const ticket of tickets) list.push(await this.location.read(ticket.id));
      return list;
    });
    const told = await Promise.all(asked.map((one) => this.location.told(one)));
    const answer: ReportAnswerDto = {
      id,
      tickets: tickets.map((ticket, index) => ({ ...ticket, ...(told[index] ?? NOTHING_TOLD) })),
    };
    await this.transaction.writeAfterwards(() => this.repeats.finish(answer));
    return answer;
  }
}
