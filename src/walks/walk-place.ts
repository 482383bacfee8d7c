import type { ComponentName } from '../locator/index.js';
import type { WorldFault } from '../locator/worlds/index.js';
import type { NameNode, Words } from '../words/index.js';
import { type DrawnRecord, findNode } from '../sites/drawing.js';
import type { WorkTimes } from '../work-times/work-times.js';

/** Where one stands: at a node, or, null, at the head-end. */
export interface Standing {
  trunk: string;
  node: string | null;
}

/** How what is done is said, and how long it takes. */
export interface Saying {
  words: Words;
  nameNode: NameNode;
  times: WorkTimes;
}

/** One component that can be opened, seen to, and mended. */
export interface OpenedPlace {
  key: string;
  /** One that may be there. */
  fault: WorldFault;
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
  { words, nameNode, times }: Saying,
): OpenedPlace {
  const { place, component } = fault;
  const trunk = place.kind === 'head-end' ? '' : place.trunk;
  const node = place.kind === 'span' ? place.to : place.kind === 'station' ? place.node : null;
  const at = drawing.trunks.findIndex((one) => one.trunk === trunk);
  const position = drawing.trunks[at]?.nodes.findIndex((one) => one.node === node) ?? -1;
  const { openMinutes, mendMinutes } = minutesAt(component, times);
  const metres =
    component === 'cable' ? (findNode(drawing, trunk, node ?? '')?.cableMetres ?? 0) : 0;
  return {
    key: placeKey(fault),
    fault,
    label: words.walk.open(component, place, nameNode),
    remakeLabel: words.walk.remake(component, place, nameNode),
    where: {
      trunk,
      node: component === 'junction-out' && place.kind === 'span' ? place.from : node,
    },
    openMinutes: openMinutes + (metres / 10) * times.followTenMetres,
    mendMinutes,
    order: [at, position, ALONG_A_SPAN.indexOf(component)],
  };
}

/** To open it, with all that comes before, and to mend it. */
function minutesAt(component: ComponentName, times: WorkTimes) {
  switch (component) {
    case 'head-end': {
      const openMinutes = times.isolateAndProveDead + times.openHeadEnd;
      return { openMinutes, mendMinutes: times.mendHeadEnd };
    }
    case 'port':
      return { openMinutes: times.lookAtFuse, mendMinutes: times.mendFuse };
    case 'station':
      return { openMinutes: times.setUpLadder + times.openStation, mendMinutes: times.mendStation };
    case 'cable': {
      // What comes out of it is measured at its end.
      const openMinutes = times.openCableRun + times.setUpLadder + times.measure;
      return { openMinutes, mendMinutes: times.mendCable };
    }
    case 'junction-out':
    case 'junction-in': {
      const openMinutes = times.setUpLadder + times.isolateAndProveDead + times.openTerminals;
      return { openMinutes, mendMinutes: times.mendTerminals };
    }
  }
}

export function inOrder(a: OpenedPlace, b: OpenedPlace): number {
  for (let k = 0; k < a.order.length; k++) {
    const difference = (a.order[k] ?? 0) - (b.order[k] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}
