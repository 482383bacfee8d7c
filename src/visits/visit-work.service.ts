import { Injectable } from '@nestjs/common';
import type { KeptWalkTestDto, VisitWalkTestDto } from '../history/proven-point.dto.js';
import { ProvenPointService } from '../history/proven-point.service.js';
import type { LookDto, TakeLooksDto } from '../looks/look.dto.js';
import { LookService } from '../looks/look.service.js';
import type { ReadingDto } from '../readings/reading.dto.js';
import type { CreateReadingDto } from '../readings/take-reading.dto.js';
import { ReadingService } from '../readings/reading.service.js';
import { VisitWithdrawalService } from '../reports/visit-withdrawal.service.js';
import {
  stands,
  type Withdrawable,
  type WithdrawnOnVisit,
  withdrawalOf,
} from '../reports/withdrawal.js';
import type { VisitWithdrawalDto, WithdrawDto } from '../reports/withdrawal.dto.js';
import { ConflictError, NotFoundError } from '../shared/domain-error.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import { TicketLogService } from '../tickets/ticket-log.service.js';
import type { VisitChecklistDto } from './visit-checklist.dto.js';
import { VisitChecklistService } from './visit-checklist.service.js';
import { VisitService } from './visit.service.js';

/** What is read, looked at and tested on a visit. */
@Injectable()
export class VisitWorkService {
  constructor(
    private readonly visits: VisitService,
    private readonly readings: ReadingService,
    private readonly looks: LookService,
    private readonly log: TicketLogService,
    private readonly proven: ProvenPointService,
    private readonly checklists: VisitChecklistService,
    private readonly withdrawals: VisitWithdrawalService,
  ) {}

  async addReading(visitId: string, reading: CreateReadingDto): Promise<ReadingDto> {
    const added = await this.readings.addOnVisit(await this.visits.find(visitId), reading);
    return { ...added, withdrawal: null };
  }

  async listReadings(
    visitId: string,
    after: string | undefined,
    limit: number,
  ): Promise<Page<ReadingDto>> {
    await this.visits.find(visitId);
    const rows = await this.readings.listOfVisit(visitId, decodeCursor(after, 2), limit + 1);
    const readings = await this.log.tellWithdrawals(rows);
    const keyOf = (one: ReadingDto) => [one.takenAt.toISOString(), one.id];
    return toPage(readings, limit, keyOf, (one) => one);
  }

  async addLooks(visitId: string, sent: TakeLooksDto): Promise<LookDto[]> {
    return this.looks.addOnVisit(await this.visits.find(visitId), sent);
  }

  async listLooks(
    visitId: string,
    after: string | undefined,
    limit: number,
  ): Promise<Page<LookDto>> {
    await this.visits.find(visitId);
    const rows = await this.looks.listOfVisit(visitId, decodeCursor(after, 2), limit + 1);
    const looks = await this.log.tellWithdrawals(rows);
    const keyOf = (one: LookDto) => [one.lookedAt.toISOString(), one.id];
    return toPage(looks, limit, keyOf, (one) => one);
  }

  /** Walk tests belong to a visit on which somebody is, or was, on site. */
  async addWalkTest(visitId: string, test: VisitWalkTestDto): Promise<KeptWalkTestDto> {
    const visit = await this.visits.find(visitId);
    if (visit.state !== 'under-way' && visit.state !== 'done') {
      throw new ConflictError(`The visit is ${visit.state}: nobody is on site to test.`);
    }
    return this.proven.record(visit, test);
  }

  async listWalkTests(
    visitId: string,
    after: string | undefined,
    limit: number,
  ): Promise<Page<KeptWalkTestDto>> {
    await this.visits.find(visitId);
    const rows = await this.proven.listOfVisit(visitId, decodeCursor(after, 2), limit + 1);
    const tests = await this.log.tellWithdrawals(rows);
    const keyOf = (one: KeptWalkTestDto) => [one.testedAt.toISOString(), one.id];
    return toPage(tests, limit, keyOf, (one) => one);
  }

  /** Takes back what was entered on the visit, whether that is about a ticket or not; answers with the entry of its log. */
  async withdraw(
    visitId: string,
    what: WithdrawnOnVisit,
    id: string,
    said: WithdrawDto,
  ): Promise<VisitWithdrawalDto> {
    const visit = await this.visits.find(visitId);
    const row = await this.findOnVisit(visitId, what, id);
    if (row === null) throw new NotFoundError(what.replace('-', ' '), id);
    if (!stands(row)) {
      const withdrawalId = withdrawalOf(row);
      throw new ConflictError('This was withdrawn already.', { withdrawalId });
    }
    const entry = await this.withdrawals.write(visit, what, id, said);
    if (what === 'reading') await this.readings.withdrawOnVisit(id, entry.id);
    else if (what === 'look') await this.looks.withdrawOnVisit(id, entry.id);
    else await this.proven.withdrawOnVisit(visitId, id, entry.id);
    return entry;
  }

  /** Kept from others until the transaction ends. */
  private findOnVisit(
    visitId: string,
    what: WithdrawnOnVisit,
    id: string,
  ): Promise<Withdrawable | null> {
    if (what === 'reading') return this.readings.findOnVisit(visitId, id);
    if (what === 'look') return this.looks.findOnVisit(visitId, id);
    return this.proven.findOnVisit(visitId, id);
  }

  async checklist(visitId: string): Promise<VisitChecklistDto> {
    return this.checklists.checklist(await this.visits.find(visitId));
  }
}
