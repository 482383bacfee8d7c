import type { Component } from '../locator/index.js';
import { type DrawnRecord, findNode } from '../sites/drawing.js';

/** Work by others near nodes of a site, on a day. */
export interface NearbyWork {
  id: string;
  rooms: readonly { trunk: string; node: string }[];
  on: string;
}

/** What hands may have been on who worked near a node: its unit, its terminals, and the cables that reach it. */
export function componentsNear(
  drawing: DrawnRecord,
  { trunk, node }: { trunk: string; node: string },
): Component[] {
  const here = findNode(drawing, trunk, node);
  if (here === undefined) return [];
  const nodes = drawing.trunks.find((one) => one.trunk === trunk)?.nodes ?? [];
  const below = nodes.filter(({ fedFrom }) => fedFrom === node);
  return [
    { component: 'junction-in', trunk, node },
    { component: 'cable', trunk, node },
    ...(here.kind === 'station' ? [{ component: 'station' as const, trunk, node }] : []),
    ...below.flatMap((next): Component[] => [
      { component: 'junction-out', trunk, node: next.node },
      { component: 'cable', trunk, node: next.node },
    ]),
  ];
}
