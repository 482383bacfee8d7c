import type { DrawnTree } from '../../drawing/drawn-tree.js';
import { copperFactor } from '../electrical/copper-temperature.js';

import type { Electrical } from './locate-request.js';

/** Ohms of one metre of cable, out and back. */
export function loopOhmsPerMetre({ coreOhmsPerKm, celsius }: Required<Electrical>): number {
  return (2 * coreOhmsPerKm * copperFactor(celsius)) / 1000;
}

/** Of the loop from the port to the trunk's farthest node and back. */
export function longestLoopOhms(
  { nodes, parent }: DrawnTree,
  electrical: Required<Electrical>,
): number {
  const metres = new Float64Array(nodes.length);
  nodes.forEach(({ cableMetres }, n) => {
    metres[n] = cableMetres + (metres[parent[n] ?? -1] ?? 0);
  });
  const farthest = metres.reduce((most, own) => Math.max(most, own), 0);
  return farthest * loopOhmsPerMetre(electrical);
}
