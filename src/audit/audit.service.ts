import { Injectable } from '@nestjs/common';
import { Readable } from 'node:stream';
import { stringify } from 'csv-stringify/sync';
import { FirmTransaction } from '../database/firm-transaction.js';
import { RetentionService } from '../jobs/retention.service.js';
import { Clock } from '../shared/clock.js';
import { idOrNew } from '../shared/new-id.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import { withoutFirm } from '../shared/without-firm.js';
import type { Principal } from '../people/principal.js';
import { actorOf, type RequestOutcome, type AuditedRequest } from './audited-request.js';
import type { AuditEntryDto, AuditExportQueryDto, AuditQueryDto } from './audit.dto.js';
import type { AuditEntry } from './audit-entry.entity.js';
import { AuditRepository } from './audit.repository.js';

/** A sheet program opens no more than this. */
const EXPORTED_ROWS = 1_000_000;

/** Read in one short transaction, while the rows before are on their way. */
const EXPORTED_AT_ONCE = 2000;

/** Who was refused to read what is of no use after that; what was done stays. */
const READS_KEPT_MS = 90 * 24 * 60 * 60_000;

const FORGOTTEN_AT_ONCE = 5000;

const COLUMNS = [
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

/** The record of who did what: it only grows. */
@Injectable()
export class AuditService {
  constructor(
    private readonly repository: AuditRepository,
    private readonly transaction: FirmTransaction,
    private readonly clock: Clock,
    retention: RetentionService,
  ) {
    retention.add(() => this.forgetOldReads());
  }

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

  /** As a sheet, newest first, read as it is sent; a last row says where there is more. */
  export(firmId: string, filter: AuditExportQueryDto): Readable {
    return Readable.from(this.exported(firmId, filter));
  }

  private async *exported(firmId: string, filter: AuditExportQueryDto): AsyncGenerator<string> {
    yield stringify([COLUMNS]);
    let below: string[] | undefined;
    for (let sent = 0; sent < EXPORTED_ROWS; sent += EXPORTED_AT_ONCE) {
      const entries = await this.transaction.run(firmId, 'read', () =>
        this.repository.list({ ...filter }, below, EXPORTED_AT_ONCE),
      );
      yield stringify(entries.map(toRow), { columns: COLUMNS, escape_formulas: true });
      const last = entries.at(-1);
      if (entries.length < EXPORTED_AT_ONCE || last === undefined) return;
      below = [last.happenedAt.toISOString(), last.id];
    }
    yield stringify([['there is more: ask for a shorter period']]);
  }

  private async forgetOldReads(): Promise<void> {
    const before = new Date(this.clock.now().getTime() - READS_KEPT_MS);
    while ((await this.repository.forgetReads(before, FORGOTTEN_AT_ONCE)) === FORGOTTEN_AT_ONCE);
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

function toRow({ happenedAt, target, ...entry }: AuditEntry) {
  return { ...entry, happenedAt: happenedAt.toISOString(), target: JSON.stringify(target) };
}
