/** How much of a site is silent, from the most to the least; promises are made by it. */
export const TROUBLE_CLASSES = ['whole-site', 'whole-trunk', 'several-rooms', 'one-room'] as const;

export type TroubleClass = (typeof TROUBLE_CLASSES)[number];

export interface StationPoint {
  trunk: string;
  node: string;
}

/** What is known of how far a ticket's trouble goes. */
export interface TroubleEvidence {
  /** Every station of the record. */
  stations: readonly StationPoint[];
  /** Said to be silent or weak in any function, and not taken back. */
  silent: readonly StationPoint[];
  /** Said to work, in all that was said last of them. */
  heard: readonly StationPoint[];
  /** Would be silent by the likeliest place, where it is likelier than not; else none. */
  behindLikeliest: readonly StationPoint[];
}

/**
 * The class of a ticket's trouble: by the rooms that were said to be silent and those that lie behind the place where the
 * cause most likely is, without those that were heard; of trunks alone of which a room was said to be silent, for nobody has
 * a whole site's promise by a guess. A site of one trunk is silent as a whole, not as a trunk.
 */
export function classOfTrouble(evidence: TroubleEvidence): TroubleClass {
  const heard = new Set(evidence.heard.map(keyOf));
  const said = evidence.silent.map(keyOf);
  const spokenOf = new Set(evidence.silent.map(({ trunk }) => trunk));
  const supposed = evidence.behindLikeliest
    .filter(({ trunk }) => spokenOf.has(trunk))
    .map(keyOf)
    .filter((key) => !heard.has(key));
  const silent = new Set([...said, ...supposed]);
  const isSilent = (point: StationPoint) => silent.has(keyOf(point));
  const { stations } = evidence;
  if (stations.length > 1 && stations.every(isSilent)) return 'whole-site';
  const trunks = [...new Set(stations.map(({ trunk }) => trunk))];
  const isWhole = (trunk: string) => {
    const own = stations.filter((station) => station.trunk === trunk);
    return own.length > 1 && own.every(isSilent);
  };
  if (trunks.some(isWhole)) return 'whole-trunk';
  return silent.size > 1 ? 'several-rooms' : 'one-room';
}

function keyOf({ trunk, node }: StationPoint): string {
  return JSON.stringify([trunk, node]);
}
