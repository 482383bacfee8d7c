import { Injectable } from '@nestjs/common';
import type { ReportDto } from '../reports/report.dto.js';
import { ReportService } from '../tickets/report.service.js';
import { LocationService } from './location.service.js';
import type { ReportAnswerDto } from './report-answer.dto.js';

/** Answers a report with what is worth checking now. */
@Injectable()
export class ReportAnswerService {
  constructor(
    private readonly reports: ReportService,
    private readonly location: LocationService,
  ) {}

  async report(siteId: string, report: ReportDto): Promise<ReportAnswerDto> {
    const { id, tickets } = await this.reports.reportSite(siteId, report);
    const answer: ReportAnswerDto = { id, tickets: [] };
    for (const ticket of tickets) {
      const officeChecks = await this.location.officeChecks(ticket.id);
      answer.tickets.push({ ...ticket, officeChecks });
    }
    return answer;
  }
}
