import type { ComponentName, LocateResult, Place } from '#app/locator/index.js';
import type { Faults } from './faults.js';
import { placeChances, type PlaceName, positionOf } from './places.js';
import type { Site } from './site.js';

/** The same as the places' score, of every component's mode: realised less expected bits, over the places named. */
export function modeGapBits(
  site: Site,
  faults: Faults,
  result: LocateResult,
  inQuestion: ReadonlySet<PlaceName>,
): number {
  const names = [...placeChances(site, result).keys()];
  let gap = 0;
  result.places.forEach(({ place, components }, i) => {
    if (!inQuestion.has(names[i]!)) return;
    for (const { component, modes } of components) {
      gap -= Math.log2(modes[trueMode(site, faults, place, component)] ?? 0);
      for (const chance of Object.values(modes)) if (chance > 0) gap += chance * Math.log2(chance);
    }
  });
  return gap;
}

function trueMode(site: Site, faults: Faults, place: Place, component: ComponentName): string {
  if (place.kind === 'head-end') return faults.headEnd;
  const trunk = faults.trunks[site.trunks.findIndex(({ id }) => id === place.trunk)]!;
  if (place.kind === 'port') return trunk.port;
  const node = place.kind === 'span' ? place.to : place.node;
  const { junctionOut, cable, junctionIn, station } =
    trunk.nodes[positionOf(site, { trunk: place.trunk, node })]!;
  if (place.kind === 'station') return station;
  return { 'junction-out': junctionOut, cable, 'junction-in': junctionIn }[component as string]!;
}
