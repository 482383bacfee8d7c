import { Injectable } from '@nestjs/common';
import type { RequestReading } from '../locator/index.js';
import { JobService } from '../jobs/job.service.js';
import type { InformantKind } from '../plan/error-rates.js';
import { Clock } from '../shared/clock.js';
import { ConflictError, InvalidInputError } from '../shared/domain-error.js';
import { happenedAt } from '../shared/happened-at.js';
import { idOrNew } from '../shared/new-id.js';
import type { AsBuilt } from '../sites/as-built.js';
import { trunksOf } from '../sites/drawing.js';
import { SitesService } from '../sites/sites.service.js';
import { checkReading } from './check-reading.js';
import { asEvidence, columnsOf, readEntered } from './entered-reading.js';
import { type RecordedElectrical, recordedElectrical } from './recorded-electrical.js';
import type { Reading } from './reading.entity.js';
import { ReadingRepository } from './reading.repository.js';
import type { CreateReadingDto } from './take-reading.dto.js';

/** What a reading is about: a ticket, with the as-built version that was true then. */
export interface ReadOn {
  id: string;
  siteId: string;
  asBuiltVersion: number;
}

/** A reading about a ticket, with the entry of its log that says so. */
export interface ReadingOnTicket {
  entryId: string;
  ticketId: string;
  period: number;
  reading: RequestReading;
  takenBy: { name: string; kind: InformantKind };
  takenAt: Date;
  note: string | null;
}

/** A reading as it is kept. */
export type KeptReading = Reading;

/** A reading with what the locator makes of it, without what only the database needs. */
export type ShownReading = Omit<Reading, 'entryId'>;

/** All of a visit are read at once whenever a ticket of it is located. */
const MOST_OF_VISIT = 1000;

/** Keeps numbers read off a meter, and says which of them a location goes by. */
@Injectable()
export class ReadingService {
  constructor(
    private readonly readings: ReadingRepository,
    private readonly sites: SitesService,
    private readonly jobs: JobService,
    private readonly clock: Clock,
  ) {}

  /** A reading as the locator takes it; an error where it does not. */
  async check(ticket: ReadOn, sent: object): Promise<RequestReading> {
    const drawing = await this.sites.drawing(ticket.siteId, ticket.asBuiltVersion);
    const recorded = await this.electrical(ticket, drawing);
    const checked = checkReading(sent, trunksOf(drawing), recorded);
    if ('errors' in checked) throw new InvalidInputError(checked.errors);
    return checked.reading;
  }

  async addOnTicket(taken: ReadingOnTicket): Promise<void> {
    const { entryId, takenBy, ...rest } = taken;
    await this.readings.insert({
      ...rest,
      ...columnsOf(taken.reading),
      id: entryId,
      entryId,
      visitId: null,
      place: null,
      entered: null,
      takenBy: takenBy.name,
      takenByKind: takenBy.kind,
      recordedAt: this.clock.now(),
      withdrawalId: null,
      visitWithdrawalId: null,
    });
  }

  /** Keeps what was entered on a visit; whether it is plausible is not judged here. */
  async addOnVisit(
    visit: { id: string; siteId: string },
    { id, ...sent }: CreateReadingDto,
  ): Promise<Omit<ShownReading, 'firmId' | 'withdrawalId' | 'visitWithdrawalId'>> {
    await this.checkRoom(visit.id);
    const meant = readEntered(sent);
    if ('errors' in meant) throw new InvalidInputError(meant.errors);
    if (sent.trunk !== null) await this.checkOnDrawing(visit.siteId, sent.trunk, sent.node);
    const now = this.clock.now();
    const reading = {
      ...sent,
      ...meant,
      id: idOrNew(id),
      ticketId: null,
      visitId: visit.id,
      reading: null,
      takenByKind: 'technician' as const,
      takenAt: happenedAt('/takenAt', sent.takenAt, now),
      recordedAt: now,
      period: null,
    };
    const stands = { withdrawalId: null, visitWithdrawalId: null };
    await this.readings.insert({ ...reading, entryId: null, ...stands });
    await this.jobs.enqueue('locations', { siteId: visit.siteId });
    return { ...reading, reading: evidenceOf({ ...reading }) };
  }

  private async checkRoom(visitId: string): Promise<void> {
    if ((await this.readings.countOfVisitLocked(visitId)) >= MOST_OF_VISIT)
      throw new ConflictError(`A visit takes ${MOST_OF_VISIT} readings at most.`, {
        most: MOST_OF_VISIT,
      });
  }

  /** The ids of those that belong to the ticket itself, oldest first. */
  idsOfTicket(ticketId: string): Promise<string[]> {
    return this.readings.idsOfTicket(ticketId);
  }

  /** What says something about a ticket, oldest first: its own, and what was read on the visits to it. */
  async pageAbout(
    ticketId: string,
    after: string[] | undefined,
    count: number,
  ): Promise<ShownReading[]> {
    return (await this.readings.pageAbout(ticketId, after, count)).map(shown);
  }

  async listOfVisit(
    visitId: string,
    after: string[] | undefined,
    count: number,
  ): Promise<ShownReading[]> {
    return (await this.readings.listOfVisit(visitId, after, count)).map(shown);
  }

  /** One that says something about a ticket, kept from others until the transaction ends. */
  findToWithdraw(ticketId: string, id: string): Promise<Reading | null> {
    return this.readings.findAboutLocked(ticketId, id);
  }

  withdraw(id: string, withdrawalId: string): Promise<void> {
    return this.readings.withdraw(id, withdrawalId);
  }

  /** One of a visit, kept from others until the transaction ends. */
  findOnVisit(visitId: string, id: string): Promise<Reading | null> {
    return this.readings.findOfVisitLocked(visitId, id);
  }

  withdrawOnVisit(id: string, visitWithdrawalId: string): Promise<void> {
    return this.readings.withdrawOnVisit(id, visitWithdrawalId);
  }

  moveTo(ticketId: string, readingIds: string[]): Promise<void> {
    return this.readings.moveTo(ticketId, readingIds);
  }

  /** What the ticket's version does not say may have been added since: a supply is seldom another one. */
  private async electrical(ticket: ReadOn, { headEnd }: AsBuilt): Promise<RecordedElectrical> {
    const recorded = recordedElectrical(headEnd, headEnd);
    if ('electrical' in recorded) return recorded;
    const now = await this.sites.drawing(ticket.siteId);
    return recordedElectrical(headEnd, now.headEnd);
  }

  private async checkOnDrawing(siteId: string, trunk: string, node: string | null): Promise<void> {
    const { trunks } = await this.sites.drawing(siteId);
    const drawn = trunks.find((one) => one.trunk === trunk);
    if (drawn === undefined) throw notDrawn('/trunk', `there is no trunk ${trunk} at this site`);
    if (node === null || drawn.nodes.some((one) => one.node === node)) return;
    throw notDrawn('/node', `there is no ${node} on trunk ${trunk}`);
  }
}

function notDrawn(field: string, reason: string): InvalidInputError {
  return new InvalidInputError([{ field, reason: `${reason}; a place can be told in words` }]);
}

function evidenceOf(row: Parameters<typeof asEvidence>[0]): RequestReading | null {
  const evidence = asEvidence(row);
  return evidence === null || 'reason' in evidence ? null : evidence;
}

/** A row that was kept, as it is shown. */
export function shown({ entryId, ...row }: KeptReading): ShownReading {
  return { ...row, reading: evidenceOf(row) };
}
