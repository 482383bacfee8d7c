/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { EFFECTS, STATION_CLASS_COUNT } from './default-system.js';
import { type NamedFault, STATION_SHORT } from './named-fault.js';
import { SHORTS_OF } from './span-effects.js';
import type { WorldSite } from './weigh-site.js';
import type { WorldTrunk } from './world-trunk.js';

function* trunkCandidates(
  { model, saidBelow, said }: WorldTrunk,
  t: number,
): Generator<NamedFault> {
  if (said === 0) return;
  if (model.portNoOutput > 0) yield { at: 'port', trunk: t };
  for (let n = 0; n < model.tree.count; n++) {
    const parts = [model.junctionOut[n]!, model.cable[n]!, model.junctionIn[n]!];
    for (let effect = 0; effect < EFFECTS.count; effect++)
      if (parts.some(({ effects }) => effects[effect]! > 0) && (saidBelow[n] || SHORTS_OF[effect]))
        yield { at: 'span', trunk: t, node: n, effect, component: null };
    const station = model.station[n];
    if (!station) continue;
    for (let group = 1; group < STATION_CLASS_COUNT; group++)
      if (station.classes[group]! > 0 && saidBelow[n])
        yield { at: 'station', trunk: t, node: n, group };
    if (station.short > 0) yield { at: 'station', trunk: t, node: n, group: STATION_SHORT };
  }
}

/** Every fault that some world can name, in an order that is always the same. */
export function candidates({ site, trunks }: WorldSite): NamedFault[] {
  const headEnd: NamedFault[] = [];
  for (let group = 1; group < site.headEnd.count; group++)
    if (site.headEnd.chance[group]! > 0) headEnd.push({ at: 'head-end', group });
  return [...headEnd, ...trunks.flatMap((trunk, t) => [...trunkCandidates(trunk, t)])];
}
