import { MAX_STRADDLING_INFORMANTS, MAX_TABLES_FOR_IDENTITIES } from '../request/limits.js';
import type { LocateRequest } from '../request/locate-request.js';
import { compareIds } from '../../drawing/drawn-tree.js';
import type { TrunkTree } from './trunk-tree.js';
import type { ConfusionFlag } from './statements.js';

/** The port, among places of a trunk. */
const PORT = -1;

/**
 * Places of one trunk at which a flag is open: see ContextPlan.nodeFlags and portFlags. From the last of its nodes up to
 * where all of them have met; of one that other trunks share up to the port. Nodes come after what feeds them.
 */
function openPlaces(tree: TrunkTree, nodes: readonly number[], isShared: boolean): number[] {
  const seen = new Map(nodes.map((node) => [node, 1]));
  const open: number[] = [];
  for (let n = Math.max(...nodes); n >= 0; n--) {
    const count = seen.get(n);
    if (count === undefined) continue;
    open.push(n);
    if (count === nodes.length && !isShared) return open;
    const above = tree.parent[n] ?? PORT;
    seen.set(above, (seen.get(above) ?? 0) + count);
  }
  return [...open, PORT];
}

/** So many spans are joined in the time that the rest of a place takes. */
const SPANS_OF_A_TABLE = 2;

/** Tables of a place by the time that they take: of a box that feeds fifty rooms it is nearly all joining. */
export function tablesOfPlace({ children, first }: TrunkTree, place: number): number {
  const joined = (place === PORT ? first : children[place])?.length ?? 0;
  return Math.max(1, Math.ceil(joined / SPANS_OF_A_TABLE));
}

/** How many flags are open at each place so far, and what that comes to. */
class Carried {
  private readonly counts: Map<number, number>[];
  private tables: number;
  private atSite = 0;
  constructor(
    private readonly trees: readonly TrunkTree[],
    private readonly groups: number,
    private readonly sizes: readonly number[],
  ) {
    this.counts = trees.map(() => new Map<number, number>());
    this.tables = trees.reduce(
      (sum, { count }, t) => sum + groups * this.sizeOf(t) * (count + 1),
      0,
    );
  }

  private sizeOf(t: number): number {
    return this.sizes[t] ?? 1;
  }

  /** Takes a flag in if it stays within the limits. */
  take({ nodes }: ConfusionFlag): boolean {
    const isShared = nodes.size > 1;
    if (isShared && this.atSite >= MAX_STRADDLING_INFORMANTS) return false;
    const taken: [Map<number, number>, number, number][] = [];
    let more = 0;
    for (const [t, list] of nodes) {
      const counts = this.counts[t];
      const tree = this.trees[t];
      if (!counts || !tree) continue;
      const isFull = (place: number) => (counts.get(place) ?? 0) >= MAX_STRADDLING_INFORMANTS;
      if (list.some(isFull)) return false;
      for (const place of openPlaces(tree, list, isShared)) {
        if (isFull(place)) return false;
        const count = counts.get(place) ?? 0;
        more += this.sizeOf(t) * this.groups * 2 ** count * tablesOfPlace(tree, place);
        taken.push([counts, place, count + 1]);
      }
    }
    if (this.tables + more > MAX_TABLES_FOR_IDENTITIES) return false;
    for (const [counts, place, count] of taken) counts.set(place, count);
    this.tables += more;
    if (isShared) this.atSite++;
    return true;
  }
}

/**
 * Ids of informants whose confusion cannot be carried along with the others': those with the fewest words, of equals the
 * later id. `groups` are the head-end's; `sizes` are by trunk, of its tables.
 */
export function identitiesBeyond(
  trees: readonly TrunkTree[],
  flags: readonly ConfusionFlag[],
  groups: number,
  sizes: readonly number[],
): string[] {
  const carried = new Carried(trees, groups, sizes);
  const byWords = [...flags].sort((a, b) => b.words - a.words || compareIds(a.id, b.id));
  return byWords
    .filter((flag) => !carried.take(flag))
    .map(({ id }) => id)
    .sort(compareIds);
}

/** The same words, by nobody in particular. */
export function withoutIdentities<Request extends LocateRequest>(
  request: Request,
  ids: readonly string[],
): Request {
  const lost = new Set(ids);
  const observations = request.observations?.map((observation) => {
    const { informant } = observation;
    if (informant?.id === undefined || !lost.has(informant.id)) return observation;
    return { ...observation, informant: { kind: informant.kind } };
  });
  return { ...request, observations };
}
