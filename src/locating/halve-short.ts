import type { LikelyPlace } from '../locator/index.js';
import { type DrawnRecord, drawingOf } from '../sites/drawing.js';

/**
 * The station past which a trunk is disconnected so that a short lies on either side with about the same chance; null where
 * there is no such station.
 *
 * @param within the chance that each place holds the short; several at once may pass 1
 */
export function halveShort(
  record: DrawnRecord,
  trunk: string,
  within: readonly LikelyPlace[],
): { node: string; behind: number } | null {
  const drawing = drawingOf(record);
  const total = within.reduce((sum, { probability }) => sum + probability, 0);
  // A station's own unit stays on when what is past it is disconnected.
  const behind = new Map<string, number>();
  for (const { place, probability } of within) {
    if (place.kind !== 'span' && place.kind !== 'station') continue;
    if (place.trunk !== trunk) continue;
    const path = drawing.pathTo(trunk, place.kind === 'span' ? place.to : place.node);
    for (const { id } of path.slice(0, -1))
      behind.set(id, (behind.get(id) ?? 0) + probability / total);
  }
  const halves = [...behind].map(([node, share]) => ({ node, behind: share }));
  const stations = halves.filter(({ node }) => drawing.nodeAt(trunk, node)?.kind === 'station');
  return stations.sort((a, b) => offHalf(a) - offHalf(b))[0] ?? null;
}

function offHalf({ behind }: { behind: number }): number {
  return Math.abs(behind - 0.5);
}
