import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { silentRooms, stripsOf } from '../drawing/strip-of.js';
import { currentLanguage } from '../shared/request-language.js';
import type { DeskDto, DeskTicketDto } from './desk.dto.js';
import { DeskRepository, type DeskRow } from './desk.repository.js';

const MOST = 500;

/** What is silent now. */
@Injectable()
export class DeskService {
  constructor(
    private readonly rows: DeskRepository,
    private readonly clock: Clock,
  ) {}

  /** `after`: the number of the newest ticket that the asker knows. */
  async now(after: number | undefined): Promise<DeskDto> {
    const { rows, count, newest, newer } = await this.rows.listOpen(MOST, after ?? null);
    const readAt = this.clock.now();
    return { items: rows.map(toItem), more: count - rows.length, newest, newer, readAt };
  }
}

function toItem(row: DeskRow): DeskTicketDto {
  const { id, number, state, site, openedBy, openedAt, going } = row;
  const { followUpDueOn, urgentReason, nextPromise } = row;
  const [first] = row.places;
  return {
    id,
    number,
    state,
    site,
    openedBy,
    openedAt,
    silentRooms: silentRooms(row.said),
    likeliest:
      first === undefined
        ? null
        : {
            words: first.inLanguages?.[currentLanguage()] ?? first.words,
            probability: first.probability,
          },
    strips: stripsOf(row),
    going,
    followUpDueOn,
    urgentReason,
    nextPromise,
  };
}
