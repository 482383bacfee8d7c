import { Injectable } from '@nestjs/common';
import { type FieldError, InvalidInputError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import { SitesService } from '../sites/sites.service.js';
import { type Drawing, findNode } from '../sites/drawing.js';
import { type HowReported, pointKey } from './observation.js';
import { ObservationRepository } from './observation.repository.js';
import type { ReportedDto, SaidDto } from './report.dto.js';
import { TicketLogService } from '../tickets/ticket-log.service.js';
import type { EntryDetails } from '../tickets/ticket-log.js';
import type { Ticket } from '../tickets/ticket.entity.js';

/** An observation with its place in the list that was sent, for naming it in an error. */
export interface Sent {
  index: number;
  reported: ReportedDto;
}

/** Records what was heard on a ticket. */
@Injectable()
export class ObservationService {
  constructor(
    private readonly observations: ObservationRepository,
    private readonly log: TicketLogService,
    private readonly sites: SitesService,
  ) {}

  /** Appends one entry with its observations to a ticket's log. */
  async record(
    ticket: Ticket,
    saidNowOrThen: SaidDto & { note?: string | null },
    how: HowReported,
    sent: Sent[],
    joined: boolean,
  ): Promise<void> {
    const drawing = await this.sites.drawing(ticket.siteId, ticket.asBuiltVersion);
    checkAgainstDrawing(sent, drawing);
    const said = this.log.dated(saidNowOrThen);
    const details: EntryDetails = {
      how,
      joined,
      note: said.note ?? null,
      notChecked: sent.filter(isNotChecked).map(({ reported }) => toPoint(reported)),
    };
    const kind = how === 'walk-test' ? 'walk-test' : 'report';
    const entryId = await this.log.write(ticket, kind, said, details);
    await this.observations.insert(
      sent.flatMap(({ reported }) => {
        const { outcome } = reported;
        // On the list but not listened to is no evidence: it stays in the entry alone.
        if (outcome === 'not-checked') return [];
        return {
          ...toPoint(reported),
          id: idOrNew(undefined),
          entryId,
          ticketId: ticket.id,
          outcome,
          saidBy: said.saidBy.name,
          saidByKind: said.saidBy.kind,
          how,
          observedAt: said.saidAt,
          period: ticket.period,
          withdrawalId: null,
        };
      }),
    );
  }
}

export function isNotChecked({ reported }: Sent): boolean {
  return reported.outcome === 'not-checked';
}

function toPoint({ trunk, node, function: name }: ReportedDto) {
  return { trunk, node, function: name };
}

export function checkAgainstDrawing(sent: Sent[], drawing: Drawing): void {
  const errors: FieldError[] = [];
  const said = new Map<string, number>();
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
    const earlier = said.get(pointKey(reported));
    if (earlier !== undefined) {
      errors.push({
        field,
        reason: `says the same station and function as /observations/${earlier}`,
      });
    }
    said.set(pointKey(reported), index);
  }
  if (errors.length > 0) throw new InvalidInputError(errors);
}
