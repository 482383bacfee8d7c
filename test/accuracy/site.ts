/** A simulated installation: what is really there, which a drawing may have wrong. */
export interface Site {
  trunks: Trunk[];
  exposureDays: number;
}

export interface Trunk {
  id: string;
  /** A node after the one that feeds it. */
  nodes: Node[];
}

export interface Node {
  id: string;
  kind: 'station' | 'junction-box';
  /** Index of the node that feeds this one; -1 for the head-end's port. */
  feeder: number;
  cableMetres: number;
}

/** One room's unit. */
export interface Room {
  trunk: number;
  node: number;
}

export type Random = () => number;

/** A whole number from `least` to `most`. */
export function between(least: number, most: number, random: Random): number {
  return least + Math.floor(random() * (most - least + 1));
}

export function pick<T>(items: readonly T[], random: Random): T {
  return items[Math.floor(random() * items.length)]!;
}

/** That many different ones, in the order in which they came up. */
export function pickSeveral<T>(items: readonly T[], count: number, random: Random): T[] {
  const left = [...items];
  return Array.from(
    { length: Math.min(count, left.length) },
    () => left.splice(Math.floor(random() * left.length), 1)[0]!,
  );
}

const EXPOSURE_DAYS = [30, 91, 182, 365];

/** 10 to 80 rooms on one to four trunks; every other trunk has tees, at stations and at junction boxes. */
export function drawSite(random: Random): Site {
  const rooms = between(10, 80, random);
  const count = between(1, Math.min(4, Math.floor(rooms / 5)), random);
  const trunks = Array.from({ length: count }, (_, t) => {
    const share = Math.floor(rooms / count) + (t < rooms % count ? 1 : 0);
    return drawTrunk('ABCD'[t]!, share, random);
  });
  return { trunks, exposureDays: pick(EXPOSURE_DAYS, random) };
}

function drawTrunk(id: string, rooms: number, random: Random): Trunk {
  const teed = random() < 0.5;
  const nodes: Node[] = [];
  const add = (kind: Node['kind'], feeder: number) =>
    nodes.push({
      id: `${kind === 'station' ? id : `${id}x`}${nodes.length + 1}`,
      kind,
      feeder,
      cableMetres: Math.round(30 + random() * 370) / 10,
    });
  for (let room = 0; room < rooms; room++) {
    let feeder = nodes.length - 1;
    if (teed && random() < 0.15) feeder = between(-1, nodes.length - 1, random);
    if (teed && random() < 0.1) feeder = add('junction-box', feeder) - 1;
    add('station', feeder);
  }
  return { id, nodes };
}

export function roomsOf(site: Site): Room[] {
  return site.trunks.flatMap(({ nodes }, trunk) =>
    nodes.flatMap(({ kind }, node) => (kind === 'station' ? [{ trunk, node }] : [])),
  );
}

/** From a node up to the head-end's port, the node first. */
export function wayUp({ nodes }: Trunk, node: number): number[] {
  const way = [];
  for (let n = node; n >= 0; n = nodes[n]!.feeder) way.push(n);
  return way;
}
