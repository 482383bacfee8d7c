import { walkMinutes } from '../walk/index.js';
import type { RecordNode } from '../sites/as-built.js';
import type { WorkTimes } from '../work-times/work-times.js';
import type { Standing } from './walk-place.js';

/** The drawing as far as walking goes. */
export interface WalkedDrawing {
  trunks: {
    trunk: string;
    nodes: Pick<RecordNode, 'node' | 'kind' | 'fedFrom' | 'cableMetres' | 'floor' | 'room'>[];
  }[];
}

/** Where one can stand on the trunks concerned, and the minutes between. Spot 0 is the head-end. */
export interface WalkSpots {
  minutes: number[][];
  /** Of a node; of the head-end where there is none. */
  spotOf: (where: Standing) => number;
}

/** The floor that a text means: "Ground", "2", "2nd floor", "Basement"; null where it does not say. */
export function floorNumber(floor: string | null): number | null {
  const text = floor?.trim().toLowerCase() ?? '';
  const number = /-?\d+/.exec(text)?.[0];
  if (number !== undefined) return Number(number);
  if (/^(g|gf|ground)\b/.test(text)) return 0;
  if (/^(b|basement|cellar)\b/.test(text)) return -1;
  return null;
}

/** One's way from a node to the head-end: the nodes passed, with the metres of cable to each. */
type Way = Map<string | null, number>;

function wayOf(nodes: WalkedDrawing['trunks'][number]['nodes'], from: string): Way {
  const byCode = new Map(nodes.map((node) => [node.node, node]));
  const way: Way = new Map([[from, 0]]);
  let metres = 0;
  for (let at = byCode.get(from); at !== undefined && !way.has(at.fedFrom);) {
    metres += at.cableMetres;
    way.set(at.fedFrom, metres);
    at = at.fedFrom === null ? undefined : byCode.get(at.fedFrom);
  }
  return way;
}

/** Along the cable: up to where both ways meet, and down again; between trunks, over the head-end. */
function metresBetween(a: { trunk: string; way: Way }, b: { trunk: string; way: Way }): number {
  const sameTrunk = a.trunk === b.trunk;
  for (const [node, metres] of a.way) {
    const back = sameTrunk || node === null ? b.way.get(node) : undefined;
    if (back !== undefined) return metres + back;
  }
  return 0;
}

function paceOf({ walkHundredMetres, climbFloor }: WorkTimes) {
  // Nobody is anywhere in no time.
  return {
    metresPerMinute: 100 / Math.max(walkHundredMetres, 0.01),
    minutesPerFloor: climbFloor,
  };
}

/** `trunks`: those with something to look at. */
export function walkSpots(
  drawing: WalkedDrawing,
  trunks: readonly string[],
  times: WorkTimes,
): WalkSpots {
  const concerned = drawing.trunks.filter(({ trunk }) => trunks.includes(trunk));
  const first = concerned[0]?.nodes[0]?.floor ?? null;
  const ground = floorNumber(first) ?? 0;
  const stands = [
    { trunk: '', node: null as string | null, way: new Map([[null, 0]]) as Way },
    ...concerned.flatMap(({ trunk, nodes }) =>
      nodes.map(({ node }) => ({ trunk, node, way: wayOf(nodes, node) })),
    ),
  ];
  const spots = [
    { floor: ground, accessMinutes: times.enterHeadEnd },
    ...concerned.flatMap(({ nodes }) =>
      nodes.map(({ floor, kind }) => {
        const accessMinutes =
          kind === 'station' ? times.enterRoom + times.waitForLesson : times.reachJunctionBox;
        return { floor: floorNumber(floor) ?? ground, accessMinutes };
      }),
    ),
  ];
  const known = new Map(stands.map(({ trunk, node }, i) => [JSON.stringify([trunk, node]), i]));
  return {
    minutes: walkMinutes(spots, paceOf(times), (from, to) => {
      const [a, b] = [stands[from], stands[to]];
      return a && b ? metresBetween(a, b) : 0;
    }),
    spotOf: ({ trunk, node }) => known.get(JSON.stringify([trunk, node])) ?? 0,
  };
}
