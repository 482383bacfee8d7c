import type { PassRoom } from '../parts/wire.js';

export interface RoomGroup {
  /** Empty: there is nothing to tell it by. */
  title: string;
  rooms: PassRoom[];
}

/** The rooms in the order of their trunk, a new group where block or floor changes. */
export function groupRooms(rooms: readonly PassRoom[]): RoomGroup[] {
  const severalTrunks = new Set(rooms.map(({ trunk }) => trunk)).size > 1;
  const groups: RoomGroup[] = [];
  let before: PassRoom | undefined;
  for (const room of rooms) {
    const last = groups.at(-1);
    if (last !== undefined && before !== undefined && isTogether(room, before)) {
      last.rooms.push(room);
    } else {
      groups.push({ title: titleOf(room, severalTrunks), rooms: [room] });
    }
    before = room;
  }
  return groups;
}

/** What a room is called; one without a name goes by its code on the drawing. */
export function nameOf({ room, node }: Pick<PassRoom, 'room' | 'node'>): string {
  return room ?? `Unit ${node}`;
}

function isTogether(a: PassRoom, b: PassRoom): boolean {
  return a.trunk === b.trunk && a.block === b.block && a.floor === b.floor;
}

function titleOf({ trunk, block, floor }: PassRoom, severalTrunks: boolean): string {
  const where = [block, floor === null ? null : floorInWords(floor)].filter((one) => one !== null);
  if (where.length > 0) return where.join(', ');
  return severalTrunks ? `Line ${trunk}` : '';
}

/** "ground" and "1" want a word more; "basement store" does well as it is. */
function floorInWords(floor: string): string {
  return /floor|basement|cellar|attic|roof/i.test(floor)
    ? floor
    : `${floor} floor`.replace(/^(-?\d+) floor$/, 'floor $1');
}
