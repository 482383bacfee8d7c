import { Injectable } from '@nestjs/common';
import { stringify } from 'csv-stringify/sync';
import { FirmTransaction } from '../database/firm-transaction.js';
import { Clock } from '../shared/clock.js';
import { idOrNew } from '../shared/new-id.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import { withoutFirm } from '../shared/without-firm.js';
import type { Principal } from '../people/principal.js';
import { actorOf, type RequestOutcome, type AuditedRequest } from './audited-request.js';
import type { AuditEntryDto, AuditExportQueryDto, AuditQueryDto } from './audit.dto.js';
import { AuditRepository } from './audit.repository.js';

/** A sheet program opens no more than this. */
const EXPORTED_ROWS = 1_000_000;

/** The record of who did what: it only grows. */
@Injectable()
export class AuditService {
  constructor(
    private readonly repository: AuditRepository,
    private readonly transaction: FirmTransaction,
    private readonly clock: Clock,
  ) {}

  /** Within the transaction of what was done, so that both are kept or neither. */
  done(principal: Principal, request: AuditedRequest): void {
    this.write(actorOf(principal), request, 'done');
  }

  /** In a transaction of its own: what was refused was rolled back. */
  async refused(principal: Principal, request: AuditedRequest): Promise<void> {
    await this.transaction.run(principal.firmId, 'write', () =>
      this.write(actorOf(principal), request, 'refused'),
    );
  }

  /** Somebody proves to be a person, or fails to; within that person's firm's transaction. */
  signingIn(personId: string, request: AuditedRequest, outcome: RequestOutcome): void {
    const actor = { actorKind: 'signing-in', actorId: personId, role: null } as const;
    this.write(actor, request, outcome);
  }

  async list({ after, limit, ...filter }: AuditQueryDto): Promise<Page<AuditEntryDto>> {
    const entries = await this.repository.list(filter, decodeCursor(after, 2), limit + 1);
    return toPage(
      entries,
      limit,
      ({ happenedAt, id }) => [happenedAt.toISOString(), id],
      withoutFirm,
    );
  }

  /** As a sheet, newest first. */
  async export(filter: AuditExportQueryDto): Promise<string> {
    const entries = await this.repository.list({ ...filter }, undefined, EXPORTED_ROWS);
    const rows = entries.map(({ happenedAt, target, ...entry }) => ({
      ...entry,
      happenedAt: happenedAt.toISOString(),
      target: JSON.stringify(target),
    }));
    const columns = [
      'happenedAt',
      'actorKind',
      'actorId',
      'role',
      'action',
      'target',
      'outcome',
      'address',
      'requestId',
    ];
    // A cell that begins like a formula must not be one when a sheet program opens it.
    return stringify(rows, { header: true, columns, escape_formulas: true });
  }

  private write(
    actor: ReturnType<typeof actorOf> | { actorKind: 'signing-in'; actorId: string; role: null },
    request: AuditedRequest,
    outcome: RequestOutcome,
  ): void {
    const happenedAt = this.clock.now();
    this.repository.insert({
      id: idOrNew(undefined),
      happenedAt,
      ...actor,
      ...request,
      outcome,
    });
  }
}
