import type { ComponentName, Place } from '../locator/index.js';
import type { NameNode } from '../sites/drawing.js';

/** A component of a place in words: "terminals at Room 13 IN". */
export function componentInWords(
  component: ComponentName,
  place: Place,
  nameNode: NameNode,
): string {
  if (place.kind !== 'span') {
    return {
      station: 'unit and its settings',
      port: 'fuse and output terminals',
      'head-end': 'head-end',
    }[place.kind];
  }
  if (component === 'cable') return 'cable';
  if (component === 'junction-in') return `terminals at ${nameNode(place.trunk, place.to)} IN`;
  return place.from === null
    ? `terminals at the head-end, trunk ${place.trunk}`
    : `terminals at ${nameNode(place.trunk, place.from)} OUT`;
}
