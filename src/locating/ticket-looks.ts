import { type LocateRequest, MAX_LOOKS, type RequestLook } from '../locator/index.js';
import { choosableLooks, type LeftOutLook, type TakenLook } from '../looks/taken-look.js';
import { type Period, periodAt } from '../readings/taken-reading.js';
import type { TicketFacts } from './ticket-facts.js';

/** The looks that a location goes by, as they are kept and as the locator takes them. */
export interface ChosenLooks {
  chosen: TakenLook[];
  leftOut: LeftOutLook[];
  /** To go into the request; without looks nothing does. */
  request: Pick<LocateRequest, 'looks'>;
}

/** @param trunks as they are posed: the groups that they name are weighed */
export function chooseLooks(
  { drawing, looks }: Pick<TicketFacts, 'drawing' | 'looks'>,
  when: Period,
  trunks: LocateRequest['trunks'],
): ChosenLooks {
  const groups = new Set(trunks.flatMap(({ nodes }) => nodes.flatMap((node) => node.groups ?? [])));
  const taken = looks.map((look) => ({
    ...look,
    period: look.period ?? periodAt(look.lookedAt, when),
  }));
  const { period, closedAt } = when;
  const about = { period, closedAt, drawing, groups, most: MAX_LOOKS };
  const { chosen, leftOut } = choosableLooks(taken, about);
  const request = chosen.length === 0 ? {} : { looks: chosen.map(toRequestLook) };
  return { chosen, leftOut, request };
}

/** A part was checked against its place when it was taken. */
function toRequestLook({ place, part, group, seen, saidByKind }: TakenLook): RequestLook {
  const informant = { kind: saidByKind };
  return { place, part, seen, informant, ...(group !== null && { group }) } as RequestLook;
}
