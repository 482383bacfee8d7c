import { feedingOrder, requireNonNegative } from '../locator/electrical/index.js';

/** A stretch of the span that feeds `node`, in metres from that span's head-end side. */
export interface SpanStretch {
  node: number;
  fromMetres: number;
  toMetres: number;
}

/**
 * Where on the drawing a distance along the cable may be: for every span that lies between
 * `lowMetres` and `highMetres` from the head-end, the stretch in it. Nearest first, beyond a tee
 * one stretch for each branch. A span's end counts, so the joint at a node names both its sides.
 */
export function spansAtDistance(
  nodes: readonly { parent: number | null; cableMetres: number }[],
  lowMetres: number,
  highMetres: number,
): SpanStretch[] {
  requireNonNegative('lowMetres', lowMetres);
  requireNonNegative('highMetres', highMetres);
  const endMetres: number[] = [];
  const stretches: SpanStretch[] = [];
  for (const node of feedingOrder(nodes)) {
    const { parent, cableMetres } = nodes[node] ?? { parent: null, cableMetres: 0 };
    const startMetres = parent === null ? 0 : (endMetres[parent] ?? 0);
    const end = startMetres + requireNonNegative(`nodes/${node}/cableMetres`, cableMetres);
    endMetres[node] = end;
    if (end >= lowMetres && startMetres <= highMetres) {
      const fromMetres = Math.max(0, lowMetres - startMetres);
      stretches.push({
        node,
        fromMetres,
        toMetres: Math.min(cableMetres, highMetres - startMetres),
      });
    }
  }
  return stretches;
}
