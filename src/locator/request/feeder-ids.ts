import type { RequestTrunk } from './locate-request.js';

/** Who feeds each node: null is the head-end's port. */
export function feederIds(trunk: RequestTrunk): Map<string, string | null> {
  return new Map(
    trunk.nodes.map(({ id, fedFrom }, n) => [
      id,
      fedFrom === undefined ? (trunk.nodes[n - 1]?.id ?? null) : fedFrom,
    ]),
  );
}

/** The node and all that it is fed through, up to the port. The feeds must form no ring. */
export function pathToPort(
  feeders: ReadonlyMap<string, string | null>,
  node: string | null,
): string[] {
  const path: string[] = [];
  for (let at = node; at !== null; at = feeders.get(at) ?? null) path.push(at);
  return path;
}
