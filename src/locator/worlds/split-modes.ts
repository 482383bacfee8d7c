/* eslint-disable @typescript-eslint/no-non-null-assertion -- every index comes from the same tables */
import type { Place } from '../../drawing/drawn-node.js';

import { modeSplit } from '../posterior/mode-split.js';
import type { SiteModel } from '../sweep/site.js';
import { EFFECTS, PLAN, STATIONS } from './default-system.js';
import type { NamedFault } from './named-fault.js';
import type { WorldFault } from './probable-world.js';

/** One mode of one component that a named fault can be, and its share of it. */
export interface SplitFault {
  readonly fault: WorldFault;
  readonly share: number;
}

const SPAN_COMPONENTS = ['junction-out', 'cable', 'junction-in'] as const;
const SPAN_WEIGHTS = ['junctionOut', 'cable', 'junctionIn'] as const;

function splitByRates<Mode extends string>(
  weights: Readonly<Partial<Record<Mode, number>>>,
  modes: readonly Mode[],
  classOf: ArrayLike<number>,
  wanted: number,
): { mode: string; share: number }[] {
  const { names, classes, shares } = modeSplit(weights, modes, classOf);
  return names.flatMap((mode, m) =>
    classes[m] === wanted && shares[m]! > 0 ? [{ mode, share: shares[m]! }] : [],
  );
}

/** The modes that a fault can be: their shares depend on rates only, as in the posterior of a component. */
export function splitModesOf(site: SiteModel, named: NamedFault): SplitFault[] {
  const made = (
    place: Place,
    component: WorldFault['component'],
    split: { mode: string; share: number }[],
  ) => split.map(({ mode, share }) => ({ fault: { place, component, mode }, share }));
  if (named.at === 'head-end') {
    const { ofMode, share, modes: names } = site.headEnd;
    const modes = names.flatMap((mode, m) =>
      ofMode[m + 1] === named.group && share[m + 1]! > 0 ? [{ mode, share: share[m + 1]! }] : [],
    );
    return made({ kind: 'head-end' }, 'head-end', modes);
  }
  const { tree, weights, portWeights } = site.trunks[named.trunk]!;
  const trunk = tree.id;
  if (named.at === 'port')
    return made({ kind: 'port', trunk }, 'port', splitByRates(portWeights, PLAN.portModes, [0], 0));
  const node = tree.nodeIds[named.node]!;
  const own = weights[named.node]!;
  if (named.at === 'station')
    return made(
      { kind: 'station', trunk, node },
      'station',
      splitByRates(own.station, PLAN.stationModes, STATIONS.ofMode, named.group),
    );
  const from = tree.nodeIds[tree.parent[named.node]!] ?? null;
  const k = named.component ?? 0;
  const split = splitByRates(own[SPAN_WEIGHTS[k]!], PLAN.spanModes, EFFECTS.ofMode, named.effect);
  return made({ kind: 'span', trunk, from, to: node }, SPAN_COMPONENTS[k]!, split);
}
