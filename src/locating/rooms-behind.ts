import type { Place } from '../drawing/drawn-node.js';
import { type DrawnRecord, drawingOf } from '../sites/drawing.js';

export interface Room {
  trunk: string;
  node: string;
  room: string | null;
}

/** The stations that would be silent if a place had failed altogether: all that it feeds, in the order of the record. */
export function roomsBehind(place: Place, record: DrawnRecord): Room[] {
  return record.trunks.flatMap(({ trunk, nodes }) => {
    const silent = nodesBehind(place, trunk, record);
    return nodes
      .filter(({ node, kind }) => kind === 'station' && silent(node))
      .map(({ node, room }) => ({ trunk, node, room }));
  });
}

function nodesBehind(place: Place, trunk: string, record: DrawnRecord): (node: string) => boolean {
  if (place.kind === 'head-end') return () => true;
  if (place.trunk !== trunk) return () => false;
  if (place.kind === 'port') return () => true;
  if (place.kind === 'station') return (node) => node === place.node;
  const below = drawingOf(record).below(trunk, place.to);
  const silent = new Set([place.to, ...below.map(({ id }) => id)]);
  return (node) => silent.has(node);
}
