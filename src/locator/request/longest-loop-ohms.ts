import { copperFactor } from '../electrical/copper-temperature.js';
import { feederIds, pathToPort } from './feeder-ids.js';
import type { Electrical, RequestTrunk } from './locate-request.js';

/** Ohms of one metre of cable, out and back. */
export function loopOhmsPerMetre({ coreOhmsPerKm, celsius }: Required<Electrical>): number {
  return (2 * coreOhmsPerKm * copperFactor(celsius)) / 1000;
}

/** Of the loop from the port to the trunk's farthest node and back. The feeds must form no ring. */
export function longestLoopOhms(trunk: RequestTrunk, electrical: Required<Electrical>): number {
  const feeders = feederIds(trunk);
  const metres = new Map(trunk.nodes.map(({ id, cableMetres }) => [id, cableMetres]));
  const fed = new Set(feeders.values());
  const ends = trunk.nodes.filter(({ id }) => !fed.has(id));
  const farthest = ends.reduce((most, { id }) => {
    const path = pathToPort(feeders, id);
    return Math.max(
      most,
      path.reduce((sum, node) => sum + (metres.get(node) ?? 0), 0),
    );
  }, 0);
  return farthest * loopOhmsPerMetre(electrical);
}
