import type { ToldFunction, PassReport, PassRoom } from '../parts/wire.js';

export type RoomMark = 'fails' | 'works';

/** What was said of rooms, by `roomKey`; a room that is not in it was not said. */
export type Marks = Readonly<Record<string, RoomMark>>;

export function roomKey({ trunk, node }: Pick<PassRoom, 'trunk' | 'node'>): string {
  return `${trunk}/${node}`;
}

/** Touched once: silent; twice: heard; three times: not said. */
export function touch(marks: Marks, key: string): Marks {
  const { [key]: mark, ...others } = marks;
  if (mark === undefined) return { ...others, [key]: 'fails' };
  return mark === 'fails' ? { ...others, [key]: 'works' } : others;
}

export function countMarks(marks: Marks): Record<RoomMark, number> {
  const all = Object.values(marks);
  const fails = all.filter((mark) => mark === 'fails').length;
  return { fails, works: all.length - fails };
}

/**
 * The marks as a report, rooms in their order. Somebody who also says which rooms were heard went through them; silent
 * rooms alone were volunteered, and that the others were not named says a little about them.
 */
export function toReport(
  rooms: readonly PassRoom[],
  marks: Marks,
  tried: ToldFunction,
): Pick<PassReport, 'how' | 'observations'> {
  const observations = rooms.flatMap(({ trunk, node }) => {
    const outcome = marks[roomKey({ trunk, node })];
    return outcome === undefined ? [] : [{ trunk, node, function: tried, outcome }];
  });
  const how = countMarks(marks).works > 0 ? 'gone-through' : 'volunteered';
  return { how, observations };
}
