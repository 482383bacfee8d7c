/** How a run of a trunk, or two neighbours, may be laid other than drawn; as a location names it. */
export interface OtherWay {
  /**
   * `branch`: the run hangs from a tee at the node before it; `end`: it lies behind the last node of its stretch; `swapped`:
   * the two have each other’s names.
   */
  kind: 'branch' | 'end' | 'swapped';
  from: string;
  to: string;
}

interface LaidOut {
  node: string;
  fedFrom: string | null;
  cableMetres: unknown;
  isLengthGuessed: boolean;
}

/** What stays with the place on the cable when two units have each other’s names. */
type OfThePlace = LaidOut & { cableType?: string | null };

/**
 * The nodes of a trunk laid that other way, in cable order. A span between two that were not neighbours is a guess from then
 * on. Undefined where the drawing has no such run.
 */
export function redrawn<Node extends OfThePlace>(
  nodes: readonly Node[],
  { kind, from, to }: OtherWay,
): Node[] | undefined {
  if (kind === 'swapped') return swapped(nodes, from, to);
  const run = runBetween(nodes, from, to);
  const [first] = run;
  const after = onlyChild(nodes, to);
  if (first === undefined || after === undefined) return undefined;
  const feeds = new Map<string, string | null>([[after.node, first.fedFrom]]);
  if (kind === 'end') feeds.set(first.node, lastBehind(nodes, after).node);
  return inCableOrder(
    nodes.map((node) =>
      feeds.has(node.node)
        ? { ...node, fedFrom: feeds.get(node.node) ?? null, isLengthGuessed: true }
        : node,
    ),
  );
}

function swapped<Node extends OfThePlace>(nodes: readonly Node[], a: string, b: string) {
  const units = new Map(nodes.map((node) => [node.node, node]));
  const other = (code: string) => (code === a ? b : code === b ? a : code);
  if (!units.has(a) || !units.has(b)) return undefined;
  return nodes.map((place): Node => {
    const { cableMetres, isLengthGuessed, cableType, fedFrom } = place;
    const unit = units.get(other(place.node)) ?? place;
    const feeder = fedFrom === null ? null : other(fedFrom);
    return { ...unit, cableMetres, isLengthGuessed, cableType, fedFrom: feeder };
  });
}

/** From one to the other along the cable; empty where they are not on one path. */
function runBetween<Node extends LaidOut>(
  nodes: readonly Node[],
  from: string,
  to: string,
): Node[] {
  const known = new Map(nodes.map((node) => [node.node, node]));
  const run: Node[] = [];
  let here = known.get(to);
  while (here !== undefined && run.length < nodes.length) {
    run.unshift(here);
    if (here.node === from) return run;
    here = known.get(here.fedFrom ?? '');
  }
  return [];
}

function onlyChild<Node extends LaidOut>(nodes: readonly Node[], of: string): Node | undefined {
  const fed = nodes.filter(({ fedFrom }) => fedFrom === of);
  return fed.length === 1 ? fed[0] : undefined;
}

/** The last node before the cable ends or branches. */
function lastBehind<Node extends LaidOut>(nodes: readonly Node[], start: Node): Node {
  let last = start;
  for (let steps = 0; steps < nodes.length; steps++) {
    const next = onlyChild(nodes, last.node);
    if (next === undefined) return last;
    last = next;
  }
  return last;
}

/** A node after the one that feeds it, each with all that it feeds; what is fed in a circle stays at the end. */
export function inCableOrder<Node extends Pick<LaidOut, 'node' | 'fedFrom'>>(
  nodes: readonly Node[],
): Node[] {
  const fed = new Map<string | null, Node[]>();
  for (const node of nodes) fed.set(node.fedFrom, [...(fed.get(node.fedFrom) ?? []), node]);
  const ordered: Node[] = [];
  const waiting = [...(fed.get(null) ?? [])].reverse();
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    ordered.push(node);
    waiting.push(...[...(fed.get(node.node) ?? [])].reverse());
  }
  const placed = new Set(ordered);
  return [...ordered, ...nodes.filter((node) => !placed.has(node))];
}
