import { treeOf } from '../../drawing/drawn-tree.js';
import type { RequestTrunk } from '../request/locate-request.js';
import type { TellApart } from './drawing-answer.js';
import type { OtherDrawing } from './drawn-otherwise.js';

/** Cables that enter or leave a node: the one that feeds it and those that it feeds. */
function cablesAt(trunk: RequestTrunk, node: string): number {
  const { children, position } = treeOf(trunk);
  return 1 + (children[position.get(node) ?? -1]?.length ?? 0);
}

/**
 * The look that tells an alternative from the drawing without doubt: a tee that is not drawn has one cable more than it
 * should, an end that is none goes on, and two swapped rooms have their names on the wrong doors.
 */
export function tellApart(
  drawn: RequestTrunk,
  redrawn: RequestTrunk,
  other: OtherDrawing,
): TellApart {
  const trunk = drawn.id;
  if (other.kind === 'swapped')
    return { look: 'name-at-door', trunk, nodes: [other.upper, other.lower] };
  const node = other.kind === 'branch' ? other.before : other.last;
  return {
    look: 'cables-at-node',
    trunk,
    node,
    asDrawn: cablesAt(drawn, node),
    alternative: cablesAt(redrawn, node),
  };
}
