import { Injectable } from '@nestjs/common';
import { JobService } from '../jobs/job.service.js';
import type { InformantKind } from '../plan/error-rates.js';
import { Clock } from '../shared/clock.js';
import { ConflictError, InvalidInputError } from '../shared/domain-error.js';
import { happenedAt } from '../shared/happened-at.js';
import { idOrNew } from '../shared/new-id.js';
import type { DrawnRecord } from '../sites/drawing.js';
import { SitesService } from '../sites/sites.service.js';
import type { LookDto, TakeLooksDto } from './look.dto.js';
import type { Look } from './look.entity.js';
import { LookRepository } from './look.repository.js';
import { checkLook, type SeenPart } from './look.js';
import { readSent } from './sent-looks.js';

/** What looks about a ticket are kept with. */
export interface LookedOnTicket {
  ticketId: string;
  period: number;
  /** The entry of its log that brought them. */
  entryId: string;
  saidBy: { name: string; kind: InformantKind };
  lookedAt: Date;
  note: string | null;
}

export type ShownLook = Omit<LookDto, 'withdrawal'> & Pick<Look, 'firmId' | 'withdrawalId'>;

/** All of a visit are read at once whenever a ticket of it is located. */
const MOST_OF_VISIT = 1000;

/** Keeps what parts looked like that somebody looked at. */
@Injectable()
export class LookService {
  constructor(
    private readonly looks: LookRepository,
    private readonly sites: SitesService,
    private readonly jobs: JobService,
    private readonly clock: Clock,
  ) {}

  /** What was sent, on a drawing; all that is wrong with it is named at once. */
  check(sent: TakeLooksDto, drawing: DrawnRecord): SeenPart[] {
    const listed = readSent(sent);
    if ('errors' in listed) throw new InvalidInputError(listed.errors);
    const checked = listed.sent.map(({ look, field }) =>
      checkLook(look, sent.saidBy.kind, drawing, field),
    );
    const errors = checked.flatMap((one) => ('errors' in one ? one.errors : []));
    if (errors.length > 0) throw new InvalidInputError(errors);
    return checked.flatMap((one) => ('look' in one ? one.look : []));
  }

  /** A single one has the id of its entry. */
  async addOnTicket(on: LookedOnTicket, seen: readonly SeenPart[]): Promise<LookDto[]> {
    const { ticketId, period, entryId, saidBy, lookedAt, note } = on;
    const said = { saidBy: saidBy.name, saidByKind: saidBy.kind, lookedAt, note };
    return this.insert(entryId, seen, { ...said, ticketId, visitId: null, entryId, period });
  }

  async addOnVisit(visit: { id: string; siteId: string }, sent: TakeLooksDto): Promise<LookDto[]> {
    const seen = this.check(sent, await this.sites.drawing(visit.siteId));
    await this.checkRoom(visit.id, seen.length);
    const lookedAt = happenedAt('/saidAt', sent.saidAt, this.clock.now());
    const { saidBy, note = null } = sent;
    const said = { saidBy: saidBy.name, saidByKind: saidBy.kind, lookedAt, note };
    const on = { ticketId: null, visitId: visit.id, entryId: null, period: null };
    const added = await this.insert(idOrNew(sent.id), seen, { ...said, ...on });
    await this.jobs.enqueue('locations', { siteId: visit.siteId });
    return added;
  }

  private async checkRoom(visitId: string, more: number): Promise<void> {
    if ((await this.looks.countOfVisitLocked(visitId)) + more > MOST_OF_VISIT)
      throw new ConflictError(`A visit takes ${MOST_OF_VISIT} looks at most.`, {
        most: MOST_OF_VISIT,
      });
  }

  idsOfTicket(ticketId: string): Promise<string[]> {
    return this.looks.idsOfTicket(ticketId);
  }

  /** What says something about a ticket, oldest first: its own, and what was seen on the visits to it. */
  async pageAbout(
    ticketId: string,
    after: string[] | undefined,
    count: number,
  ): Promise<ShownLook[]> {
    return (await this.looks.pageAbout(ticketId, after, count)).map(shown);
  }

  async listOfVisit(
    visitId: string,
    after: string[] | undefined,
    count: number,
  ): Promise<ShownLook[]> {
    return (await this.looks.listOfVisit(visitId, after, count)).map(shown);
  }

  /** One that says something about a ticket, kept from others until the transaction ends. */
  findToWithdraw(ticketId: string, id: string): Promise<Look | null> {
    return this.looks.findAboutLocked(ticketId, id);
  }

  withdraw(id: string, withdrawalId: string): Promise<void> {
    return this.looks.withdraw(id, withdrawalId);
  }

  /** One of a visit, kept from others until the transaction ends. */
  findOnVisit(visitId: string, id: string): Promise<Look | null> {
    return this.looks.findOfVisitLocked(visitId, id);
  }

  withdrawOnVisit(id: string, visitWithdrawalId: string): Promise<void> {
    return this.looks.withdrawOnVisit(id, visitWithdrawalId);
  }

  moveTo(ticketId: string, lookIds: string[]): Promise<void> {
    return this.looks.moveTo(ticketId, lookIds);
  }

  private async insert(
    id: string,
    seen: readonly SeenPart[],
    on: Omit<
      Look,
      | 'firmId'
      | 'id'
      | keyof SeenPart
      | 'groupName'
      | 'recordedAt'
      | 'withdrawalId'
      | 'visitWithdrawalId'
    >,
  ): Promise<LookDto[]> {
    const recordedAt = this.clock.now();
    const rows = seen.map(({ group, ...rest }) => ({
      ...on,
      ...rest,
      id: seen.length === 1 ? id : idOrNew(undefined),
      groupName: group,
      recordedAt,
      withdrawalId: null,
      visitWithdrawalId: null,
    }));
    await this.looks.insert(rows);
    return rows.map(({ groupName, withdrawalId, visitWithdrawalId: _onVisit, ...row }) => ({
      ...row,
      group: groupName,
      withdrawal: withdrawalId,
    }));
  }
}

function shown({ groupName, ...row }: Look): ShownLook {
  return { ...row, group: groupName };
}
