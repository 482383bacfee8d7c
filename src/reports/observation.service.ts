import { Injectable } from '@nestjs/common';
import type { InformantKind } from '../plan/error-rates.js';
import { ConflictError, type FieldError, InvalidInputError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import { type DrawnRecord, findNode } from '../sites/drawing.js';
import { type HowReported, saidKey } from './observation.js';
import type { Observation } from './observation.entity.js';
import { ObservationRepository } from './observation.repository.js';
import type { ReportedDto, SaidDto } from './report.dto.js';

/** An observation with its place in the list that was sent, for naming it in an error. */
export interface Sent {
  index: number;
  reported: ReportedDto;
}

/** What observations are kept with: the ticket they are about, and the entry of its log that brought them. */
export interface SaidOn {
  ticketId: string;
  period: number;
  entryId: string;
  said: SaidDto & { saidAt: Date };
  how: HowReported;
  sent: readonly Sent[];
}

/** A location reads all that was ever said on its ticket: so much it can read. */
const MOST_OF_TICKET = 20_000;

/** Keeps what was heard on tickets. */
@Injectable()
export class ObservationService {
  constructor(private readonly observations: ObservationRepository) {}

  /**
   * On the list but not listened to is no evidence: it stays in the log's entry alone. The tickets are locked.
   * @throws ConflictError where one of them has no room for it
   */
  async add(said: readonly SaidOn[]): Promise<void> {
    const rows = said.flatMap(toRows);
    for (const { ticketId, count } of await this.observations.insert(rows, MOST_OF_TICKET))
      refuseBeyond(count + rows.filter((row) => row.ticketId === ticketId).length);
  }

  /** Of a ticket that is locked. */
  async checkRoom(ticketId: string, more: number): Promise<void> {
    refuseBeyond((await this.observations.count(ticketId, MOST_OF_TICKET)) + more);
  }

  /** At most `count`, oldest first, after the given sort key. */
  pageOfTicket(
    ticketId: string,
    after: string[] | undefined,
    count: number,
  ): Promise<Observation[]> {
    return this.observations.pageOfTicket(ticketId, after, count);
  }

  /** Oldest first. */
  idsOfTicket(ticketId: string): Promise<string[]> {
    return this.observations.idsOfTicket(ticketId);
  }

  /** Which of some are the ticket's, and whether they are all of it that was not withdrawn. */
  async standing(ticketId: string, ids: readonly string[]) {
    const { own, others } = await this.observations.standing(ticketId, ids);
    return { own: new Set(own), isAllThatStands: others === 0 };
  }

  findToWithdraw(ticketId: string, id: string): Promise<Observation | null> {
    return this.observations.findOfTicket(ticketId, id);
  }

  withdraw(id: string, withdrawalId: string): Promise<void> {
    return this.observations.withdraw(id, withdrawalId);
  }

  moveTo(ticketId: string, observationIds: string[]): Promise<void> {
    return this.observations.moveTo(ticketId, observationIds);
  }
}

function toRows({
  ticketId,
  period,
  entryId,
  said,
  how,
  sent,
}: SaidOn): Omit<Observation, 'firmId'>[] {
  return sent.flatMap(({ reported }) => {
    const { outcome } = reported;
    if (outcome === 'not-checked') return [];
    return {
      ...toPoint(reported),
      id: idOrNew(undefined),
      entryId,
      ticketId,
      outcome,
      disconnectedBelow: reported.disconnectedBelow ?? null,
      saidBy: said.saidBy.name,
      saidByKind: said.saidBy.kind,
      how,
      observedAt: said.saidAt,
      period,
      withdrawalId: null,
    };
  });
}

function refuseBeyond(count: number): void {
  if (count <= MOST_OF_TICKET) return;
  throw new ConflictError(
    `A ticket takes ${MOST_OF_TICKET} observations at most, withdrawn ones among them.`,
    { most: MOST_OF_TICKET },
  );
}

export function isNotChecked({ reported }: Sent): boolean {
  return reported.outcome === 'not-checked';
}

export function toPoint({ trunk, node, function: name }: ReportedDto) {
  return { trunk, node, function: name };
}

/** Whose word it is and what it belongs to, where that decides whether cable may have been disconnected meanwhile. */
export type SaidHow = { how: HowReported; kind: InformantKind };

/** @throws {@link InvalidInputError} naming all that is wrong */
export function checkAgainstDrawing(sent: Sent[], drawing: DrawnRecord, said: SaidHow): void {
  const errors: FieldError[] = [];
  const told = new Map<string, number>();
  for (const { index, reported } of sent) {
    const field = `/observations/${index}`;
    const { trunk, node } = reported;
    const drawn = findNode(drawing, trunk, node);
    if (!drawing.trunks.some((one) => one.trunk === trunk)) {
      errors.push({ field: `${field}/trunk`, reason: `there is no trunk ${trunk} on the drawing` });
    } else if (drawn === undefined) {
      errors.push({ field: `${field}/node`, reason: `there is no ${node} on trunk ${trunk}` });
    } else if (drawn.kind === 'junction-box') {
      errors.push({
        field: `${field}/node`,
        reason: `${node} is a junction box: nothing sounds there`,
      });
    }
    errors.push(
      ...wrongDisconnection(reported, drawing, said).map((reason) => ({
        field: `${field}/disconnectedBelow`,
        reason,
      })),
    );
    const earlier = told.get(saidKey(reported));
    if (earlier !== undefined) {
      errors.push({
        field,
        reason: `says the same station and function as /observations/${earlier}`,
      });
    }
    told.set(saidKey(reported), index);
  }
  if (errors.length > 0) throw new InvalidInputError(errors);
}

function wrongDisconnection(
  { trunk, disconnectedBelow: node = null }: ReportedDto,
  drawing: DrawnRecord,
  { how, kind }: SaidHow,
): string[] {
  if (node === null) return [];
  if (how === 'walk-test') return ['belongs to a report: a walk test is made with the trunk whole'];
  if (kind !== 'technician') return ['is for a technician, who opens terminals'];
  return findNode(drawing, trunk, node) === undefined
    ? [`there is no ${node} on trunk ${trunk}`]
    : [];
}
