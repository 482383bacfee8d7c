import type { LocateRequest, LocateResult } from '#app/locator/index.js';
import type { Faults } from './faults.js';
import { type Site, wayUp } from './site.js';
import type { Told } from './tell.js';

/**
 * A place by name: `head-end`, `port A`, `span A 3`, `station A A4`. A span is named by the position (from 0) of the node
 * that it feeds, a station by its room, so that a true place has a name on a drawing with rooms in the wrong order.
 */
export type PlaceName = string;
export const HEAD_END: PlaceName = 'head-end';
export const portName = (trunk: string): PlaceName => `port ${trunk}`;
export const spanName = (trunk: string, position: number): PlaceName => `span ${trunk} ${position}`;
export const stationName = (trunk: string, node: string): PlaceName => `station ${trunk} ${node}`;

/** Chances of all places of a site, most probable first. */
export type PlaceChances = Map<PlaceName, number>;

export function trunkOf(site: Site, id: string) {
  return site.trunks.find((trunk) => trunk.id === id)!;
}

export function positionOf(site: Site, { trunk, node }: Pick<Told, 'trunk' | 'node'>): number {
  return trunkOf(site, trunk).nodes.findIndex(({ id }) => id === node);
}

export function placeChances(
  drawing: Site,
  { places }: Pick<LocateResult, 'places'>,
): PlaceChances {
  return new Map(
    places.map(({ place, probability }) => {
      if (place.kind === 'head-end') return [HEAD_END, probability];
      if (place.kind === 'port') return [portName(place.trunk), probability];
      if (place.kind === 'station') return [stationName(place.trunk, place.node), probability];
      const { trunk, to: node } = place;
      return [spanName(trunk, positionOf(drawing, { trunk, node })), probability];
    }),
  );
}

export function truePlaces(site: Site, faults: Faults): Set<PlaceName> {
  const places = new Set<PlaceName>();
  if (faults.headEnd !== 'ok') places.add(HEAD_END);
  faults.trunks.forEach(({ port, nodes }, t) => {
    const trunk = site.trunks[t]!;
    if (port !== 'ok') places.add(portName(trunk.id));
    nodes.forEach(({ junctionOut, cable, junctionIn, station }, n) => {
      if ([junctionOut, cable, junctionIn].some((mode) => mode !== 'ok'))
        places.add(spanName(trunk.id, n));
      if (station !== 'ok') places.add(stationName(trunk.id, trunk.nodes[n]!.id));
    });
  });
  return places;
}

/**
 * The places in question: the head-end, and for each room told not to work its station, every span on the way to it and
 * its trunk's port. What was told decides it, not what is true, so that a score over them is as fair as over all.
 */
export function placesInQuestion(site: Site, evidence: readonly Told[]): Set<PlaceName> {
  const places = new Set<PlaceName>([HEAD_END]);
  for (const one of evidence) {
    if (one.outcome === 'works') continue;
    const trunk = trunkOf(site, one.trunk);
    places.add(portName(trunk.id)).add(stationName(trunk.id, one.node));
    for (const n of wayUp(trunk, positionOf(site, one))) places.add(spanName(trunk.id, n));
  }
  return places;
}

/** Drawing and evidence in the wire form. */
export function toRequest(drawing: Site, observations: Told[]): LocateRequest {
  return {
    trunks: drawing.trunks.map(({ id, nodes }) => ({
      id,
      nodes: nodes.map(({ id: node, kind, feeder, cableMetres }) => {
        return { id: node, kind, fedFrom: nodes[feeder]?.id ?? null, cableMetres };
      }),
    })),
    exposureDays: drawing.exposureDays,
    observations,
    // The generators go round; none waits for a complaint.
    begunBy: 'round',
  };
}
