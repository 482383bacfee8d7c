import { FUNCTION_NAMES, FUNCTION_WORDS } from '../parts/function-words.js';
import { roomKey } from './marks.js';
import { nameOf } from './room-groups.js';
import type { PassRoom, PassTicket } from '../parts/wire.js';

type Points = PassTicket['stillToProve'];

/**
 * What is reported and not yet shown to work again, a line for each thing that was tried, and one for where it was said
 * to work since; rooms in their order, and last what the present drawing does not have.
 */
export function reportedInWords(
  points: Points,
  saidToWork: Points,
  rooms: readonly PassRoom[],
): string[] {
  const working = new Set(saidToWork.map(pointKey));
  return FUNCTION_NAMES.flatMap((name) => {
    const reported = points.filter((point) => point.function === name);
    const works = reported.filter((point) => working.has(pointKey(point)));
    const fails = reported.filter((point) => !working.has(pointKey(point)));
    const { tried } = FUNCTION_WORDS[name];
    return [
      ...(fails.length > 0 ? [`${tried}, not working in: ${roomsInWords(fails, rooms)}`] : []),
      ...(works.length > 0
        ? [
            `${tried}, said to work again in: ${roomsInWords(works, rooms)}. The technician will try it there.`,
          ]
        : []),
    ];
  });
}

function roomsInWords(points: Points, rooms: readonly PassRoom[]): string {
  const keys = new Set(points.map(roomKey));
  const known = new Set(rooms.map(roomKey));
  const named = rooms.filter((room) => keys.has(roomKey(room))).map(nameOf);
  const others = points
    .filter((point) => !known.has(roomKey(point)))
    .map(({ node }) => nameOf({ node, room: null }));
  return [...named, ...others].join(', ');
}

function pointKey(point: Points[number]): string {
  return `${roomKey(point)} ${point.function}`;
}
