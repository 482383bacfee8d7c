import type { Place, Stretch } from '../locator/index.js';
import type { NameNode } from '../sites/drawing.js';

/** A place in words: "between Room 12 and Room 13 on trunk A". */
export function placeInWords(place: Place, nameNode: NameNode): string {
  switch (place.kind) {
    case 'span': {
      const from = place.from === null ? 'the head-end' : nameNode(place.trunk, place.from);
      return `between ${from} and ${nameNode(place.trunk, place.to)} on trunk ${place.trunk}`;
    }
    case 'station':
      return `the station in ${nameNode(place.trunk, place.node)} on trunk ${place.trunk}`;
    case 'port':
      return `the head-end’s output for trunk ${place.trunk}`;
    case 'head-end':
      return 'the head-end';
  }
}

/** A stretch in words: "between Room 9 and Room 13 on trunk A, 4 spans". */
export function stretchInWords({ trunk, from, to, spans }: Stretch, nameNode: NameNode): string {
  return `${placeInWords({ kind: 'span', trunk, from, to }, nameNode)}, ${spans.length} spans`;
}
