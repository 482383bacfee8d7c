import { FUNCTIONS_AS_ASKED } from '#app/words/index.js';
import type { ToldFunction, PassReport, PassRoom } from '../parts/wire.js';

export type RoomMark = 'fails' | 'works' | 'weak';

/** What was said of rooms, by `roomKey`; a room that is not in it was not said. */
export type Marks = Readonly<Record<string, RoomMark>>;

/** Of each thing that was tried. */
export type MarksOfTried = Readonly<Partial<Record<ToldFunction, Marks>>>;

/** What the next touch makes of it. */
const NEXT: Readonly<Record<'unsaid' | RoomMark, RoomMark | undefined>> = {
  unsaid: 'fails',
  fails: 'works',
  works: 'weak',
  weak: undefined,
};

export function roomKey({ trunk, node }: Pick<PassRoom, 'trunk' | 'node'>): string {
  return `${trunk}/${node}`;
}

/** Touched once: silent; twice: heard; three times: faint; once more: not said. */
export function touch(marks: Marks, key: string): Marks {
  return withMark(marks, [key], NEXT[marks[key] ?? 'unsaid']);
}

/** What a touch of many rooms at once says of all of them: silent, then heard, then nothing. */
export function nextOfAll(marks: Marks, rooms: readonly PassRoom[]): 'fails' | 'works' | undefined {
  const [first] = rooms;
  const mark = first === undefined ? undefined : marks[roomKey(first)];
  if (mark === undefined || rooms.some((room) => marks[roomKey(room)] !== mark)) return 'fails';
  return mark === 'fails' ? 'works' : undefined;
}

export function touchAll(marks: Marks, rooms: readonly PassRoom[]): Marks {
  return withMark(marks, rooms.map(roomKey), nextOfAll(marks, rooms));
}

function withMark(marks: Marks, keys: readonly string[], mark: RoomMark | undefined): Marks {
  const others = Object.entries(marks).filter(([key]) => !keys.includes(key));
  return Object.fromEntries(
    mark === undefined ? others : [...others, ...keys.map((key) => [key, mark] as const)],
  );
}

export function countMarks(marks: Marks): Record<RoomMark, number> {
  const counts = { fails: 0, works: 0, weak: 0 };
  for (const mark of Object.values(marks)) counts[mark] += 1;
  return counts;
}

/**
 * The marks as a report, rooms in their order. Somebody who also says which rooms were heard went through them; silent
 * rooms alone were volunteered, and that the others were not named says a little about them.
 */
export function toReport(
  rooms: readonly PassRoom[],
  marksOfTried: MarksOfTried,
): Pick<PassReport, 'how' | 'observations'> {
  const observations = FUNCTIONS_AS_ASKED.flatMap((tried) =>
    rooms.flatMap(({ trunk, node }) => {
      const outcome = marksOfTried[tried]?.[roomKey({ trunk, node })];
      return outcome === undefined ? [] : [{ trunk, node, function: tried, outcome }];
    }),
  );
  const isGoneThrough = observations.some(({ outcome }) => outcome === 'works');
  return { how: isGoneThrough ? 'gone-through' : 'volunteered', observations };
}
