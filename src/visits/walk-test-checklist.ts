import { FUNCTIONS, type FunctionName, pointKey } from '../plan/functions.js';
import type { AsBuilt } from '../sites/as-built.js';
import { speaks } from '../sites/drawing.js';
import type { ChecklistRoomDto } from './visit-checklist.dto.js';

/** A function at a station, and when a walk test of the visit last heard it there. */
interface HeardThere {
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
  const testedAt = new Map(heard.map((one) => [pointKey(one), one.testedAt]));
  return trunks.flatMap(({ trunk, nodes }) =>
    nodes.flatMap((drawn) => {
      const { node, room, floor, block } = drawn;
      const functions = FUNCTIONS.filter((name) => speaks(drawn, name)).map((name) => {
        return {
          function: name,
          testedAt: testedAt.get(pointKey({ trunk, node, function: name })) ?? null,
        };
      });
      return functions.length === 0 ? [] : { trunk, node, room, floor, block, functions };
    }),
  );
}
