import { FUNCTIONS_AS_ASKED, type OfficeWords, type PageWords } from '#app/words/index.js';
import { roomKey } from './marks.js';
import { nameOf } from './room-groups.js';
import type { PassRoom, PassTicket } from '../parts/wire.js';

type Points = PassTicket['stillToProve'];

interface Said {
  page: PageWords;
  office: OfficeWords;
}

/**
 * What is reported and not yet shown to work again, a line for each thing that was tried, and one for where it was said
 * to work since; rooms in their order, and last what the present drawing does not have.
 */
export function reportedInWords(
  points: Points,
  saidToWork: Points,
  rooms: readonly PassRoom[],
  { page, office }: Said,
): string[] {
  const working = new Set(saidToWork.map(pointKey));
  return FUNCTIONS_AS_ASKED.flatMap((name) => {
    const reported = points.filter((point) => point.function === name);
    const works = reported.filter((point) => working.has(pointKey(point)));
    const fails = reported.filter((point) => !working.has(pointKey(point)));
    const { tried } = page.functions[name];
    return [
      ...(fails.length > 0 ? [office.ticket.notWorking(tried, namesOf(fails, rooms, page))] : []),
      ...(works.length > 0 ? [office.ticket.saidToWork(tried, namesOf(works, rooms, page))] : []),
    ];
  });
}

function namesOf(points: Points, rooms: readonly PassRoom[], words: PageWords): string[] {
  const keys = new Set(points.map(roomKey));
  const known = new Set(rooms.map(roomKey));
  const named = rooms.filter((room) => keys.has(roomKey(room)));
  const others = points
    .filter((point) => !known.has(roomKey(point)))
    .map(({ node }) => ({ node, room: null }));
  return [...named, ...others].map((room) => nameOf(room, words));
}

function pointKey(point: Points[number]): string {
  return `${roomKey(point)} ${point.function}`;
}
