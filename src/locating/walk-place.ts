import type { WorldFault } from '../locator/worlds/index.js';
import type { NameNode, Words } from '../words/index.js';
import { type DrawnRecord, findNode } from '../sites/drawing.js';
import { WALK_FIGURES } from './walk-figures.js';

/** Where one stands: at a node, or, null, at the head-end. */
export interface Standing {
  trunk: string;
  node: string | null;
}

/** How what is done is said. */
export interface Saying {
  words: Words;
  nameNode: NameNode;
}

/** One component that can be opened, seen to, and mended. */
export interface OpenedPlace {
  key: string;
  label: string;
  /** What is done where it looked sound and is suspected all the same. */
  remakeLabel: string;
  where: Standing;
  openMinutes: number;
  mendMinutes: number;
  /** Sorts places as they come along the cable. */
  order: readonly [trunk: number, node: number, component: number];
}

const ALONG_A_SPAN = ['head-end', 'port', 'junction-out', 'cable', 'junction-in', 'station'];

export function placeKey({ place, component }: Pick<WorldFault, 'place' | 'component'>): string {
  const trunk = place.kind === 'head-end' ? '' : place.trunk;
  const node = place.kind === 'span' ? place.to : place.kind === 'station' ? place.node : '';
  return JSON.stringify([component, trunk, node]);
}

/** What is done about a fault, where, and for how long. */
export function openedPlace(
  fault: WorldFault,
  drawing: DrawnRecord,
  { words, nameNode }: Saying,
): OpenedPlace {
  const { place, component } = fault;
  const trunk = place.kind === 'head-end' ? '' : place.trunk;
  const node = place.kind === 'span' ? place.to : place.kind === 'station' ? place.node : null;
  const at = drawing.trunks.findIndex((one) => one.trunk === trunk);
  const position = drawing.trunks[at]?.nodes.findIndex((one) => one.node === node) ?? -1;
  const { openMinutes, mendMinutes } = WALK_FIGURES.open[component];
  const metres =
    component === 'cable' ? (findNode(drawing, trunk, node ?? '')?.cableMetres ?? 0) : 0;
  return {
    key: placeKey(fault),
    label: words.walk.open(component, place, nameNode),
    remakeLabel: words.walk.remake(component, place, nameNode),
    where: {
      trunk,
      node: component === 'junction-out' && place.kind === 'span' ? place.from : node,
    },
    openMinutes: openMinutes + metres / WALK_FIGURES.cableMetresPerMinute,
    mendMinutes,
    order: [at, position, ALONG_A_SPAN.indexOf(component)],
  };
}

export function inOrder(a: OpenedPlace, b: OpenedPlace): number {
  for (let k = 0; k < a.order.length; k++) {
    const difference = (a.order[k] ?? 0) - (b.order[k] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}
