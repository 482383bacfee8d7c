import type { OracleRequest } from '../oracle/request.js';
import { downThrough, upThrough } from '../oracle/span-kinds.js';
import { bit } from '../oracle/tables.js';

/** Every core. */
export const ALL = 15;

type Nodes = OracleRequest['trunks'][number]['nodes'];

export interface Drawn {
  id: string;
  nodes: Nodes;
  parent: number[];
  order: number[];
}

/** Modes of everything: by node the three of its span and its station's. */
export interface Assigned {
  port: string;
  spans: string[][];
  stations: string[];
}

export function drawn({ id, nodes }: OracleRequest['trunks'][number]): Drawn {
  const parent = nodes.map(({ fedFrom }, n) =>
    fedFrom === undefined ? n - 1 : nodes.findIndex((node) => node.id === fedFrom),
  );
  const order: number[] = [];
  for (let level = [-1]; level.length > 0;) {
    level = nodes.flatMap((_, n) => (level.includes(parent[n]!) ? [n] : []));
    order.push(...level);
  }
  return { id, nodes, parent, order };
}

export const shortOf = (mode: string) => (mode.startsWith('short-') ? bit(mode.slice(6)) : 0);

/** Feeds at every node, and what is seen at the top of every span and at the port. */
export function travel({ nodes, parent, order }: Drawn, x: Assigned) {
  const views = nodes.map((_, n) => shortOf(x.stations[n]!));
  const tops = nodes.map(() => 0);
  let seen = 0;
  for (const n of [...order].reverse()) {
    tops[n] = x.spans[n]!.reduceRight((view, mode) => upThrough(mode, view), views[n]!);
    if (parent[n]! < 0) seen |= tops[n];
    else views[parent[n]!]! |= tops[n];
  }
  const start = ALL & ~seen & ~(x.port === 'ok' ? 0 : bit('supply'));
  const feeds: number[] = nodes.map(() => 0);
  for (const n of order)
    feeds[n] = x.spans[n]!.reduce(
      (feed, mode) => downThrough(mode, feed),
      parent[n]! < 0 ? start : feeds[parent[n]!]!,
    );
  return { tops, seen, start, feeds };
}

export function spokenOf(request: OracleRequest): string[] {
  const said = (request.observations ?? []).map((one) => one.function);
  return [...new Set([...said, ...(request.unmentioned?.functions ?? [])])];
}

export type Travelled = ReturnType<typeof travel>;
