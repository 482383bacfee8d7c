import type { PageWords } from '#app/words/index.js';
import type { PassRoom } from '../parts/wire.js';

export interface RoomGroup {
  /** Empty: there is nothing to tell it by. */
  title: string;
  rooms: PassRoom[];
}

/** The rooms in the order of their trunk, a new group where block or floor changes. */
export function groupRooms(rooms: readonly PassRoom[], words: PageWords): RoomGroup[] {
  const severalTrunks = new Set(rooms.map(({ trunk }) => trunk)).size > 1;
  const groups: RoomGroup[] = [];
  let before: PassRoom | undefined;
  for (const room of rooms) {
    const last = groups.at(-1);
    if (last !== undefined && before !== undefined && isTogether(room, before)) {
      last.rooms.push(room);
    } else {
      groups.push({ title: titleOf(room, severalTrunks, words), rooms: [room] });
    }
    before = room;
  }
  return groups;
}

/** The groups that the cabinet speaks to together, where they are some of the rooms and not all. */
export function calledTogether(rooms: readonly PassRoom[]): RoomGroup[] {
  const titles = [...new Set(rooms.flatMap(({ groups }) => groups))];
  return titles
    .map((title) => ({ title, rooms: rooms.filter(({ groups }) => groups.includes(title)) }))
    .filter((group) => group.rooms.length < rooms.length);
}

/** What a room is called; one without a name goes by its code on the drawing. */
export function nameOf(
  { room, node }: Pick<PassRoom, 'room' | 'node'>,
  { unit }: Pick<PageWords, 'unit'>,
): string {
  return room ?? unit(node);
}

function isTogether(a: PassRoom, b: PassRoom): boolean {
  return a.trunk === b.trunk && a.block === b.block && a.floor === b.floor;
}

function titleOf(
  { trunk, block, floor }: PassRoom,
  severalTrunks: boolean,
  words: PageWords,
): string {
  const where = [block, floor === null ? null : words.floor(floor)].filter((one) => one !== null);
  if (where.length > 0) return where.join(', ');
  return severalTrunks ? words.line(trunk) : '';
}
