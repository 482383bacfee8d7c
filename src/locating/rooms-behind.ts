import type { Place } from '../locator/index.js';
import type { DrawingNode, Drawing } from '../sites/drawing.js';

export interface Room {
  trunk: string;
  node: string;
  room: string | null;
}

/** The stations that would be silent if a place had failed altogether: all that it feeds. */
export function roomsBehind(place: Place, drawing: Drawing): Room[] {
  return drawing.trunks.flatMap(({ trunk, nodes }) =>
    nodesBehind(place, trunk, nodes)
      .filter(({ kind }) => kind === 'station')
      .map(({ node, room }) => ({ trunk, node, room })),
  );
}

function nodesBehind(place: Place, trunk: string, nodes: DrawingNode[]): DrawingNode[] {
  if (place.kind === 'head-end') return nodes;
  if (place.trunk !== trunk) return [];
  if (place.kind === 'port') return nodes;
  if (place.kind === 'station') return nodes.filter(({ node }) => node === place.node);
  const silent = new Set<string>();
  const toVisit = [place.to];
  for (let node = toVisit.pop(); node !== undefined; node = toVisit.pop()) {
    silent.add(node);
    toVisit.push(...nodes.filter(({ fedFrom }) => fedFrom === node).map((fed) => fed.node));
  }
  return nodes.filter(({ node }) => silent.has(node));
}
