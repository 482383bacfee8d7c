import { between, pick, pickSeveral, type Random, type Room, roomsOf, type Site } from './site.js';
import { CHANCE_OF_CONFUSION, drawOutcome, type Person, type Told, told } from './tell.js';
import { ALL_FUNCTIONS, type Condition, type FunctionName } from './true-conditions.js';

export type ConditionAt = (trunk: number, node: number, name: FunctionName) => Condition;

const COMPLAINTS: readonly FunctionName[] = [
  ...Array.from({ length: 7 }, () => 'bell' as const),
  ...Array.from({ length: 7 }, () => 'announcement' as const),
  'music',
  'music',
  'room-call',
  'room-call',
  'talkback',
  'lamp',
];

export const CALLER = 'caller';

export interface Asking {
  /** What the complaint is about; left out: drawn. */
  complaint?: FunctionName;
  /** The caller listens to one of the five rooms and says the same of all. */
  copies?: boolean;
}

/**
 * The talk on the telephone, gone through from lists. Which rooms are asked about depends on chance and on what was told
 * before, never on what is true, so that what is told carries all that there is to know.
 *
 * A caller with a name tells about five rooms in a row; every other time somebody else with a name about three; the
 * office about three to eight. If nothing fails, there is no case. Up to two rooms said to fail are asked about again,
 * with their lamp; unless the second look finds something wrong too, there is no case. In every other case a
 * technician has looked at the room and two functions in each of two more.
 */
export function goThrough(
  site: Site,
  condition: ConditionAt,
  random: Random,
  { complaint = pick(COMPLAINTS, random), copies = false }: Asking = {},
): Told[] | undefined {
  const rooms = roomsOf(site);
  const ask = (room: Room, name: FunctionName, person: Person) =>
    told(site, room, name, outcome(room, name, person), person);
  const outcome = ({ trunk, node }: Room, name: FunctionName, person: Person) =>
    drawOutcome(person, condition(trunk, node, name), random);
  const somebody = (id: string): Person => {
    return { kind: 'office', id, confused: random() < CHANCE_OF_CONFUSION };
  };
  const office: Person = { kind: 'office' };

  const start = between(0, rooms.length - 5, random);
  const five = rooms.slice(start, start + 5);
  const caller = somebody(CALLER);
  const listened = copies ? outcome(pick(five, random), complaint, caller) : undefined;
  const asked: { room: Room; told: Told }[] = [];
  const add = (room: Room, one: Told) => asked.push({ room, told: one });
  for (const room of five)
    add(
      room,
      listened ? told(site, room, complaint, listened, caller) : ask(room, complaint, caller),
    );
  if (random() < 0.5) {
    const other = somebody('other');
    for (const room of pickSeveral(rooms, 3, random)) add(room, ask(room, complaint, other));
  }
  for (const room of pickSeveral(rooms, between(3, 8, random), random))
    add(room, ask(room, complaint, office));

  const failing = asked.filter((one) => one.told.outcome === 'fails').map(({ room }) => room);
  const suspects = [...new Set(failing)].slice(0, 2);
  const second = suspects.map((room) => ask(room, complaint, office));
  if (!second.some(({ outcome: again }) => again !== 'works')) return undefined;
  const lamps = suspects.map((room) =>
    ask(room, complaint === 'lamp' ? 'announcement' : 'lamp', office),
  );
  const all = [...asked.map((one) => one.told), ...second, ...lamps];
  if (random() < 0.5) {
    const technician: Person = { kind: 'technician' };
    all.push(ask(suspects[0]!, complaint, technician));
    for (const room of pickSeveral(rooms, 2, random))
      all.push(
        ask(room, complaint, technician),
        ask(room, pick(ALL_FUNCTIONS, random), technician),
      );
  }
  return all;
}
