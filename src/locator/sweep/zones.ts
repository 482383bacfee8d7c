import { compareIds } from '../../drawing/drawn-tree.js';
import type { TrunkTree } from './trunk-tree.js';

/** Stations with the same groups are one zone: all settings of the head-end switch them alike. */
export interface Zones {
  /** All groups of the site, by name. */
  readonly groups: readonly string[];
  /** The groups of each zone; one zone at least. */
  readonly groupsOf: readonly ReadonlySet<string>[];
  /** By trunk, by node. */
  readonly of: readonly Uint16Array[];
}

export function zonesOf(trees: readonly TrunkTree[]): Zones {
  const groups = new Set<string>();
  const known = new Map<string, number>([['[]', 0]]);
  const groupsOf: ReadonlySet<string>[] = [new Set()];
  const of = trees.map(({ nodes }) =>
    Uint16Array.from(nodes, ({ groups: own = [] }) => {
      for (const group of own) groups.add(group);
      const key = JSON.stringify([...own].sort(compareIds));
      const zone = known.get(key) ?? groupsOf.push(new Set(own)) - 1;
      known.set(key, zone);
      return zone;
    }),
  );
  return { groups: [...groups].sort(compareIds), groupsOf, of };
}
