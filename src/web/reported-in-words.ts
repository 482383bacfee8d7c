import { FUNCTION_NAMES, FUNCTION_WORDS } from './function-words.js';
import { roomKey } from './marks.js';
import { nameOf } from './room-groups.js';
import type { PassRoom, PassTicket } from './wire.js';

/**
 * What is reported and not yet shown to work again, a line for each thing that was tried; rooms in their order, and
 * last what the present drawing does not have.
 */
export function reportedInWords(
  points: PassTicket['stillToProve'],
  rooms: readonly PassRoom[],
): string[] {
  const known = new Set(rooms.map(roomKey));
  return FUNCTION_NAMES.flatMap((name) => {
    const there = points.filter((point) => point.function === name);
    if (there.length === 0) return [];
    const keys = new Set(there.map(roomKey));
    const where = [
      ...rooms.filter((room) => keys.has(roomKey(room))).map(nameOf),
      ...there
        .filter((point) => !known.has(roomKey(point)))
        .map(({ node }) => nameOf({ node, room: null })),
    ];
    return [`${FUNCTION_WORDS[name].tried}, not working in: ${where.join(', ')}`];
  });
}
