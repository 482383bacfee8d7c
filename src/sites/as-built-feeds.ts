import { plainWord } from './as-built-fields.js';

/** A node as far as it could be read: what is undefined had its own complaint already. */
export interface FedRecordNode {
  node: string | undefined;
  /** Null: the head-end. */
  fedFrom: string | null | undefined;
  /** Whether what feeds it was left out, and it is the node before. */
  implied: boolean;
}

export interface FeedComplaint {
  index: number;
  field: 'node' | 'fedFrom';
  reason: string;
}

/**
 * What is wrong with how a trunk's nodes feed each other: a node that is there twice or fed by two,
 * fed from what is not there, or fed in a circle. `where` says in words where a node stands.
 */
export function checkFeeds(
  nodes: FedRecordNode[],
  where: (index: number) => string,
  trunkOf: (node: string) => string | undefined,
): FeedComplaint[] {
  const first = new Map<string, number>();
  nodes.forEach(({ node }, index) => {
    if (node !== undefined && !first.has(node)) first.set(node, index);
  });
  const likeWord = new Map([...first.keys()].map((code) => [plainWord(code), code]));
  return nodes
    .flatMap((node, index) => [
      ...repeated(nodes, node, index, first, where),
      ...unknownFeed(node, index, first, likeWord, trunkOf),
    ])
    .concat(circles(nodes, first));
}

function repeated(
  nodes: FedRecordNode[],
  { node, fedFrom, implied }: FedRecordNode,
  index: number,
  first: Map<string, number>,
  where: (index: number) => string,
): FeedComplaint[] {
  if (node === undefined) return [];
  const before = first.get(node) ?? index;
  const earlier = nodes[before];
  if (before === index || earlier === undefined) return [];
  const bothKnown = fedFrom !== undefined && earlier.fedFrom !== undefined;
  if (bothKnown && fedFrom !== earlier.fedFrom && !(implied && earlier.implied)) {
    const reason = `${node} is fed by two: from ${feeder(earlier.fedFrom)} (${where(before)}) and from ${feeder(fedFrom)} here`;
    return [{ index, field: 'fedFrom', reason }];
  }
  return [{ index, field: 'node', reason: `${node} is there already (${where(before)})` }];
}

function unknownFeed(
  { fedFrom }: FedRecordNode,
  index: number,
  first: Map<string, number>,
  likeWord: Map<string, string>,
  trunkOf: (node: string) => string | undefined,
): FeedComplaint[] {
  if (fedFrom === undefined || fedFrom === null || first.has(fedFrom)) return [];
  const other = trunkOf(fedFrom);
  if (other !== undefined) {
    const reason = `${fedFrom} is on trunk ${other}; a node is fed within its own trunk`;
    return [{ index, field: 'fedFrom', reason }];
  }
  const meant = likeWord.get(plainWord(fedFrom));
  const hint = meant === undefined ? '' : `; is ${meant} meant?`;
  return [{ index, field: 'fedFrom', reason: `there is no node ${fedFrom} on this trunk${hint}` }];
}

/** One complaint for each circle, at the first of its nodes. */
function circles(nodes: FedRecordNode[], first: Map<string, number>): FeedComplaint[] {
  const complaints: FeedComplaint[] = [];
  const walkOf = new Map<number, number>();
  for (const start of first.values()) {
    let index: number | undefined = start;
    while (index !== undefined && !walkOf.has(index)) {
      walkOf.set(index, start);
      const fedFrom: string | null | undefined = nodes[index]?.fedFrom;
      index = fedFrom === null || fedFrom === undefined ? undefined : first.get(fedFrom);
    }
    // Only a walk that comes back to what it passed itself has found a circle that nobody told yet.
    if (index !== undefined && walkOf.get(index) === start) {
      complaints.push(circleThrough(index, nodes, first));
    }
  }
  return complaints;
}

function circleThrough(
  start: number,
  nodes: FedRecordNode[],
  first: Map<string, number>,
): FeedComplaint {
  const circle: number[] = [];
  let index: number | undefined = start;
  do {
    circle.push(index);
    index = first.get(nodes[index]?.fedFrom ?? '');
  } while (index !== undefined && index !== start);
  if (circle.length === 1) {
    return { index: start, field: 'fedFrom', reason: 'a node cannot be fed from itself' };
  }
  const lowest = circle.indexOf(Math.min(...circle));
  const inOrder = [...circle.slice(lowest), ...circle.slice(0, lowest)];
  const codes = inOrder.map((each) => nodes[each]?.node ?? '');
  const shown = codes.length > 6 ? [...codes.slice(0, 5), '…'] : codes;
  const reason = `is fed in a circle: ${[...shown, codes[0]].join(' ← ')}`;
  return { index: circle[lowest] ?? start, field: 'fedFrom', reason };
}

function feeder(fedFrom: string | null | undefined): string {
  return fedFrom ?? 'the head-end';
}
