import { Injectable } from '@nestjs/common';
import { JobService } from '../jobs/job.service.js';
import { VisitWithdrawalService } from '../reports/visit-withdrawal.service.js';
import { Clock } from '../shared/clock.js';
import {
  ConflictError,
  InvalidInputError,
  MoveNotAllowedError,
  NotFoundError,
} from '../shared/domain-error.js';
import { happenedAt } from '../shared/happened-at.js';
import { idOrNew } from '../shared/new-id.js';
import { withoutFirm } from '../shared/without-firm.js';
import { visitMovesFrom } from './visit-lifecycle.js';
import type { MoveVisitDto, VisitMoveListDto } from './visit-move.dto.js';
import { VisitChecklistService } from './visit-checklist.service.js';
import { VisitChangeRepository } from './visit-change.repository.js';
import { VisitMoveRepository } from './visit-move.repository.js';
import type { VisitDto } from './visit.dto.js';
import type { Visit } from './visit.entity.js';
import { VisitRepository } from './visit.repository.js';
import { VisitService } from './visit.service.js';

/** A visit's log tells so many of each at most: the newest. */
const MOST_TOLD = 500;

/** Takes visits from state to state, and keeps who did when and why. */
@Injectable()
export class VisitMoveService {
  constructor(
    private readonly visits: VisitRepository,
    private readonly moves: VisitMoveRepository,
    private readonly reader: VisitService,
    private readonly changes: VisitChangeRepository,
    private readonly checklists: VisitChecklistService,
    private readonly withdrawals: VisitWithdrawalService,
    private readonly jobs: JobService,
    private readonly clock: Clock,
  ) {}

  async move(visitId: string, move: MoveVisitDto): Promise<VisitDto> {
    const visit = await this.visits.findLocked(visitId);
    if (visit === null) throw new NotFoundError('visit', visitId);
    const allowed = visitMovesFrom(visit.state);
    if (!allowed.includes(move.to)) {
      throw new MoveNotAllowedError('visit', visit.state, move.to, allowed);
    }
    const now = this.clock.now();
    const at = happenedAt('/at', move.at, now);
    const moved = { ...visit, ...changesOf(visit, move, at), version: visit.version + 1 };
    if (move.to === 'done' && !move.confirmed.includes('not-all-heard')) {
      await this.checklists.askWhatIsMissing(visit);
    }
    await this.visits.update(moved, visit.version);
    await this.moves.insert({
      id: idOrNew(move.id),
      visitId,
      fromState: visit.state,
      toState: move.to,
      movedBy: move.by,
      movedAt: at,
      recordedAt: now,
      reason: move.reason,
      workDone: move.workDone,
      visitVersion: moved.version,
    });
    const described = await this.reader.describe(moved);
    // Somebody is there, as was promised.
    for (const ticketId of described.ticketIds) {
      await this.jobs.enqueue('promise-clocks', { ticketId });
    }
    if (move.to === 'done') await this.jobs.enqueue('notices', { kind: 'work-to-sign', visitId });
    return described;
  }

  async list(visitId: string): Promise<VisitMoveListDto> {
    await this.reader.find(visitId);
    const count = MOST_TOLD + 1;
    const moves = await this.moves.listOfVisit(visitId, count);
    const changes = await this.changes.listOfVisit(visitId, count);
    const withdrawals = await this.withdrawals.listOfVisit(visitId, count);
    return {
      items: moves.slice(-MOST_TOLD).map(withoutFirm),
      changes: changes
        .slice(-MOST_TOLD)
        .map(({ firmId: _firmId, visitId: _visitId, ...change }) => change),
      withdrawals: withdrawals.slice(-MOST_TOLD),
      hasOlder: [moves, changes, withdrawals].some((list) => list.length > MOST_TOLD),
    };
  }
}

/** The columns that say what the moves made of the visit. */
function changesOf(visit: Visit, move: MoveVisitDto, at: Date): Partial<Visit> {
  const workDone = move.workDone?.trim() || visit.workDone;
  switch (move.to) {
    case 'under-way':
      if (visit.technicianId === null) {
        throw new ConflictError('Name who goes first: the visit has no technician yet.');
      }
      return { state: move.to, workDone, startedAt: at };
    case 'done':
      if (workDone === null) throw invalid('/workDone', 'is needed for a visit to be done');
      if (visit.startedAt !== null && at < visit.startedAt) {
        throw invalid('/at', `is before the visit began, at ${visit.startedAt.toISOString()}`);
      }
      return { state: move.to, workDone, finishedAt: at, travelMinutes: move.travelMinutes };
    case 'planned':
      // Whoever was there has left without being done; the log keeps when.
      return { state: move.to, workDone, startedAt: null };
    case 'missed':
    case 'called-off':
      return { state: move.to, workDone };
  }
}

function invalid(field: string, reason: string): InvalidInputError {
  return new InvalidInputError([{ field, reason }]);
}
