/** What of a node decides where it is drawn. */
export interface CableNode {
  node: string;
  /** Null: the head-end's port. */
  fedFrom: string | null;
}

/**
 * How the span that feeds a node is drawn: straight on; from the end of a row to the beginning of the next; or hanging
 * from a tee.
 */
export type SpanWay = 'along' | 'wraps' | 'hangs';

/** A node in the grid: columns count along the cable, rows down the page; the port is at 0, 0 and no node. */
export interface LaidNode {
  node: string;
  /** Null: the port. */
  feeder: string | null;
  column: number;
  row: number;
  way: SpanWay;
  /** How many tees are between it and the port; lines that run side by side go by it. */
  depth: number;
  /** Of the branches that hang from one tee, which one. */
  branch: number;
}

export interface LaidTrunk {
  /** In cable order: a node after the one that feeds it, a branch after the tee. */
  nodes: LaidNode[];
  columns: number;
  rows: number;
}

const PORT = '';

/** Rows from left to right, a long trunk in several; branches hang below their tee, before the trunk goes on. */
export function layLying(nodes: readonly CableNode[], columns: number): LaidTrunk {
  const width = Math.max(2, columns);
  const fed = feedsOf(nodes);
  const laid: LaidNode[] = [];
  const layRun = (start: string, from: Omit<LaidNode, 'node'>, left: number): number => {
    const run = mainRun(start, fed);
    let { column, row } = from;
    let feeder = from.feeder;
    for (let begun = 0; begun < run.length;) {
      const here = run.slice(begun, begun + width - column);
      here.forEach((node, i) => {
        const way = begun + i === 0 ? from.way : i === 0 ? 'wraps' : 'along';
        if (node !== PORT) laid.push({ ...from, node, feeder, column: column + i, row, way });
        feeder = node === PORT ? null : node;
      });
      row = layBranches(here, { column, row, left, depth: from.depth });
      begun += here.length;
      column = left;
    }
    return row;
  };
  // The rightmost tee first: what hangs from those further left then crosses nothing.
  const layBranches = (
    here: readonly string[],
    at: { column: number; row: number; left: number; depth: number },
  ): number => {
    const tees = here.flatMap((node, i) =>
      branchesOf(node, fed).length > 0 ? [{ node, column: at.column + i }] : [],
    );
    let row = at.row + 1;
    for (let t = tees.length - 1; t >= 0; t--) {
      const tee = tees[t];
      if (tee === undefined) continue;
      const left = Math.max(at.left, (tees[t - 1]?.column ?? at.left - 1) + 1);
      branchesOf(tee.node, fed).forEach((first, branch) => {
        const feeder = tee.node === PORT ? null : tee.node;
        const from = { feeder, column: tee.column, row, way: 'hangs' as const, branch };
        row = layRun(first, { ...from, depth: at.depth + 1 }, left);
      });
    }
    return row;
  };
  const from = { feeder: null, column: 0, row: 0, way: 'along' as const, depth: 0, branch: 0 };
  const rows = layRun(PORT, from, 0);
  return { nodes: inCableOrder(laid, fed), columns: width, rows };
}

/** One node a row; a branch stands a column further in, between its tee and what comes after. */
export function layUpright(nodes: readonly CableNode[]): LaidTrunk {
  const fed = feedsOf(nodes);
  const laid: LaidNode[] = [];
  let row = 0;
  const layRun = (start: string, feederOfRun: string | null, depth: number, branch: number) => {
    let feeder = feederOfRun;
    mainRun(start, fed).forEach((node, i) => {
      const way = i === 0 && depth > 0 ? 'hangs' : 'along';
      if (node !== PORT) laid.push({ node, feeder, column: depth, row, way, depth, branch });
      row++;
      feeder = node === PORT ? null : node;
      for (const [k, first] of branchesOf(node, fed).entries()) layRun(first, feeder, depth + 1, k);
    });
  };
  layRun(PORT, null, 0, 0);
  const columns = 1 + Math.max(0, ...laid.map(({ column }) => column));
  return { nodes: inCableOrder(laid, fed), columns, rows: row };
}

type Feeds = ReadonlyMap<string, readonly string[]>;

/** The nodes that each feeds, the one with most behind it first: the trunk goes on there. */
function feedsOf(nodes: readonly CableNode[]): Feeds {
  const fed = new Map<string, string[]>();
  for (const { node, fedFrom } of nodes) {
    const list = fed.get(fedFrom ?? PORT) ?? [];
    list.push(node);
    fed.set(fedFrom ?? PORT, list);
  }
  const behind = new Map<string, number>();
  for (const { node } of countingOrder(nodes, fed)) {
    const below = fed.get(node) ?? [];
    behind.set(
      node,
      below.reduce((sum, one) => sum + (behind.get(one) ?? 0), 1),
    );
  }
  for (const list of fed.values()) {
    const [main] = [...list].sort((a, b) => (behind.get(b) ?? 0) - (behind.get(a) ?? 0));
    if (main !== undefined) list.sort((a, b) => Number(b === main) - Number(a === main));
  }
  return fed;
}

/** What is fed before what feeds it. */
function countingOrder(nodes: readonly CableNode[], fed: Feeds): CableNode[] {
  const byNode = new Map(nodes.map((one) => [one.node, one]));
  const order: CableNode[] = [];
  const waiting = [PORT];
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    const one = byNode.get(name);
    if (one !== undefined) order.push(one);
    waiting.push(...(fed.get(name) ?? []));
  }
  return order.reverse();
}

function mainRun(start: string, fed: Feeds): string[] {
  const run = [start];
  for (let next = fed.get(start)?.[0]; next !== undefined; next = fed.get(next)?.[0])
    run.push(next);
  return run;
}

function branchesOf(node: string, fed: Feeds): readonly string[] {
  return (fed.get(node) ?? []).slice(1);
}

function inCableOrder(laid: readonly LaidNode[], fed: Feeds): LaidNode[] {
  const byNode = new Map(laid.map((one) => [one.node, one]));
  const order: LaidNode[] = [];
  const waiting = [PORT];
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    const one = byNode.get(name);
    if (one !== undefined) order.push(one);
    const [main, ...branches] = fed.get(name) ?? [];
    if (main !== undefined) waiting.push(main);
    waiting.push(...branches.reverse());
  }
  return order;
}

export type CableStep = 'on' | 'back' | 'into-branch' | 'out-of-branch';

/** The node that a step along the cable leads to; undefined where the cable ends. */
export function stepAlong(
  { nodes }: LaidTrunk,
  from: string,
  step: CableStep,
): LaidNode | undefined {
  const here = nodes.find(({ node }) => node === from);
  const at = (name: string | null | undefined) => nodes.find(({ node }) => node === name);
  switch (step) {
    case 'on':
      return nodes.find(({ feeder, way }) => feeder === from && way !== 'hangs');
    case 'back':
      return at(here?.feeder);
    case 'into-branch':
      return nodes.find(({ feeder, way }) => feeder === from && way === 'hangs');
    case 'out-of-branch': {
      let one = here;
      while (one !== undefined && one.way !== 'hangs') one = at(one.feeder);
      return at(one?.feeder);
    }
  }
}
