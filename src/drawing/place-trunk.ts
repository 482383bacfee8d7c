import type { LaidNode, LaidTrunk } from './lay-trunk.js';

/** Pixels of the drawing, before the browser scales it. */
export interface Spacing {
  columnPixels: number;
  rowPixels: number;
  /** Of the port, from the drawing's corner. */
  left: number;
  top: number;
  /** Beyond the last column: for lines that go to the next row, and for words. */
  right: number;
  bottom: number;
}

export const LYING: Spacing = {
  columnPixels: 80,
  rowPixels: 112,
  left: 52,
  top: 46,
  right: 52,
  bottom: 62,
};

export const UPRIGHT: Spacing = {
  columnPixels: 40,
  rowPixels: 52,
  left: 72,
  top: 44,
  right: 230,
  bottom: 30,
};

export interface PlacedNode extends LaidNode {
  x: number;
  y: number;
  /** The span that feeds it, from its feeder's middle to its own: an SVG path. */
  path: string;
  /** Where the span's number stands. */
  numberAt: { x: number; y: number };
}

export interface PlacedTrunk {
  port: { x: number; y: number };
  nodes: PlacedNode[];
  width: number;
  height: number;
}

/** Turns cells into pixels, and each span into a path. */
export function placeTrunk(laid: LaidTrunk, spacing: Spacing, isUpright: boolean): PlacedTrunk {
  const { columnPixels, rowPixels, left, top, right, bottom } = spacing;
  const spot = ({ column, row }: Pick<LaidNode, 'column' | 'row'>) => ({
    x: left + column * columnPixels,
    y: top + row * rowPixels,
  });
  const port = spot({ column: 0, row: 0 });
  const spots = new Map(laid.nodes.map((node) => [node.node, spot(node)]));
  const edge = left + (laid.columns - 1) * columnPixels;
  const nodes = laid.nodes.map((node) => {
    const from = spots.get(node.feeder ?? '') ?? port;
    const to = spot(node);
    const drawn = isUpright ? upright(node, from, to) : lying(node, from, to, { edge, spacing });
    return { ...node, ...to, ...drawn };
  });
  return {
    port,
    nodes,
    width: edge + right,
    height: top + Math.max(0, laid.rows - 1) * rowPixels + bottom,
  };
}

interface Spot {
  x: number;
  y: number;
}

type DrawnSpan = Pick<PlacedNode, 'path' | 'numberAt'>;

/** How far branches that hang from one tee stand apart. */
const APART = 12;

function lying(
  { way, depth, branch }: LaidNode,
  from: Spot,
  to: Spot,
  { edge, spacing }: { edge: number; spacing: Spacing },
): DrawnSpan {
  if (way === 'along') return straight(from, to);
  if (way === 'hangs') {
    const x = from.x - branch * APART;
    return {
      path: `M${from.x} ${from.y}L${x} ${from.y + 14}L${x} ${to.y - 14}L${to.x} ${to.y}`,
      numberAt: { x: x + 24, y: to.y - 34 },
    };
  }
  // Round the end of the row and back above the next one, a branch within what it hangs from.
  const turn = edge + 46 - Math.min(depth, 3) * 8;
  const above = to.y - spacing.rowPixels * 0.42;
  const start = to.x - 26;
  const back = `L${turn - 8} ${from.y}Q${turn} ${from.y} ${turn} ${from.y + 8}L${turn} ${above - 8}`;
  const on = `Q${turn} ${above} ${turn - 8} ${above}L${start + 8} ${above}`;
  const down = `Q${start} ${above} ${start} ${above + 8}L${start} ${to.y - 8}Q${start} ${to.y} ${start + 8} ${to.y}`;
  return {
    path: `M${from.x} ${from.y}${back}${on}${down}L${to.x} ${to.y}`,
    numberAt: { x: to.x + 30, y: above - 7 },
  };
}

function upright({ way, branch }: LaidNode, from: Spot, to: Spot): DrawnSpan {
  const numberAt = { x: to.x - 20, y: to.y - 22 };
  if (way !== 'hangs') return { path: `M${from.x} ${from.y}L${to.x} ${to.y}`, numberAt };
  const y = from.y + 14 + branch * APART;
  return {
    path: `M${from.x} ${from.y}L${from.x} ${y}L${to.x - 8} ${y}Q${to.x} ${y} ${to.x} ${y + 8}L${to.x} ${to.y}`,
    numberAt,
  };
}

function straight(from: Spot, to: Spot): DrawnSpan {
  return {
    path: `M${from.x} ${from.y}L${to.x} ${to.y}`,
    numberAt: { x: (from.x + to.x) / 2, y: to.y - 16 },
  };
}

export interface Bracket {
  path: string;
  /** The stretch's one number stands here, at the first of its pieces. */
  numberAt: Spot | null;
}

/**
 * Brackets over spans that nothing tells apart, given by the nodes they lead into, from the top down: one for each row
 * that they run through.
 */
export function bracketsOver(
  placed: PlacedTrunk,
  into: readonly string[],
  isUpright: boolean,
): Bracket[] {
  const wanted = new Set(into);
  const spans = placed.nodes.filter(({ node }) => wanted.has(node));
  const starts = (one: PlacedNode) => placed.nodes.find(({ node }) => node === one.feeder);
  const pieces: { a: Spot; b: Spot }[] = [];
  let last: PlacedNode | undefined;
  for (const span of spans) {
    const feeder = starts(span) ?? placed.port;
    const isGoingOn = last !== undefined && span.feeder === last.node && span.way === 'along';
    const piece = pieces.at(-1);
    if (isGoingOn && piece !== undefined) piece.b = span;
    else pieces.push({ a: span.way === 'along' ? feeder : span, b: span });
    last = span;
  }
  return pieces.map(({ a, b }, i) => {
    // Beyond the stub of the head-end, where the trunk begins.
    const start = a.x + (a.x === placed.port.x && a.y === placed.port.y ? 24 : 8);
    const [x, y] = isUpright ? [Math.min(a.x, b.x) - 20, 0] : [0, Math.min(a.y, b.y) - 22];
    const path = isUpright
      ? `M${x + 6} ${a.y + 6}L${x} ${a.y + 6}L${x} ${b.y - 4}L${x + 6} ${b.y - 4}`
      : `M${start} ${y + 6}L${start} ${y}L${b.x - 4} ${y}L${b.x - 4} ${y + 6}`;
    const at = isUpright ? { x: x - 2, y: (a.y + b.y) / 2 } : { x: (a.x + b.x) / 2, y: y - 5 };
    return { path, numberAt: i === 0 ? at : null };
  });
}
