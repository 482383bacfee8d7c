import { FUNCTIONS, type FunctionName } from '../plan/functions.js';
import type { AsBuilt } from '../sites/as-built.js';
import { speaks } from '../sites/drawing.js';
import type { ChecklistRoomDto } from './visit-checklist.dto.js';

/** A function that a walk test of the visit heard at a station. */
export interface HeardThere {
  trunk: string;
  node: string;
  function: FunctionName;
  testedAt: Date;
}

/** What is to be heard where on a walk test of a whole site, in the order of its cables, with what was heard already. */
export function walkTestChecklist(
  { trunks }: AsBuilt,
  heard: readonly HeardThere[],
): ChecklistRoomDto[] {
  const lastHeard = new Map<string, Date>();
  for (const one of heard) {
    const known = lastHeard.get(keyOf(one));
    if (known === undefined || known < one.testedAt) lastHeard.set(keyOf(one), one.testedAt);
  }
  return trunks.flatMap(({ trunk, nodes }) =>
    nodes.flatMap((drawn) => {
      const { node, room, floor, block } = drawn;
      const functions = FUNCTIONS.filter((name) => speaks(drawn, name)).map((name) => {
        const testedAt = lastHeard.get(keyOf({ trunk, node, function: name })) ?? null;
        return { function: name, testedAt };
      });
      return functions.length === 0 ? [] : { trunk, node, room, floor, block, functions };
    }),
  );
}

function keyOf(point: { trunk: string; node: string; function: FunctionName }): string {
  return JSON.stringify([point.trunk, point.node, point.function]);
}
