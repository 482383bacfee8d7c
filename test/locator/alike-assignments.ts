// Assignments that no evidence and no explanation tells apart, for the slow oracle of explanations.
import type { OracleRequest } from './oracle/request.js';
import { bit, CORES } from './oracle/tables.js';
import { type Assignment, enumerate, type OracleTrunk } from './oracle/trunks.js';

export function trunkKey(
  trunk: string,
  port: string,
  nodes: readonly { node: string; feed: string[]; weak: boolean; view: string[] }[],
): string {
  const written = nodes.map(
    ({ node, feed, weak, view }) =>
      `${node}:${[...feed].sort().join('+')}${weak ? '~' : ''}/${[...view].sort().join('+')}`,
  );
  return `${trunk} ${port} ${written.sort().join(' ')}`;
}

const coresIn = (set: number) => CORES.filter((core) => set & bit(core));

function isInformative(request: OracleRequest, trunk: OracleTrunk, n: number): boolean {
  const node = trunk.nodes[n]!;
  if (trunk.feeder.filter((feeder) => feeder === n).length > 1) return true;
  const heard = (request.observations ?? []).filter(
    (o) => o.trunk === trunk.id && o.node === node.id,
  );
  if (heard.length > 0) return true;
  const isRead = request.readings?.some(
    (r) => r.kind === 'supply-volts' && r.trunk === trunk.id && r.node === node.id,
  );
  if (isRead) return true;
  if (!request.unmentioned || node.kind !== 'station' || node.isOut) return false;
  return request.unmentioned.functions.some((name) => !node.lacks?.includes(name));
}

/** Assignments that are one explanation and the same to all evidence, added up. */
export interface Alike {
  key: string;
  /** One of them, with the sum of their priors; and of those with a fault, by place as TrunkExplained has them. */
  now: Assignment;
  faulty: Float64Array;
}

const copyOf = (now: Assignment): Assignment => ({
  ...now,
  prior: 0,
  kinds: now.kinds.slice(),
  stations: now.stations.slice(),
  views: now.views.slice(),
  feeds: now.feeds.slice(),
  cutFeeds: now.cutFeeds.map((feeds) => feeds.slice()),
});

export function alikeOf(request: OracleRequest, trunk: OracleTrunk): Alike[] {
  const informative = trunk.nodes.flatMap((_, n) => (isInformative(request, trunk, n) ? [n] : []));
  // By two numbers, of the trunk whole and of its cuts: a text for each assignment takes longer than all else.
  const found = new Map<number, Map<number, Alike>>();
  const shares = trunk.spanKinds.map((kinds) => kinds.map(({ faulty, chance }) => faulty / chance));
  const isFaulty = trunk.stationModes.map((modes) => modes.map(([mode]) => mode !== 'ok'));
  enumerate(trunk, (now) => {
    const { prior, port, powerless, kinds, stations, views, feeds, cutFeeds } = now;
    let whole = (port === 'ok' ? 0 : 2) + (powerless ? 1 : 0);
    let cut = 0;
    for (let i = 0; i < informative.length; i++) {
      const n = informative[i]!;
      whole = ((whole * 16 + views[n]!) * 32 + feeds[n]!) * 16 + stations[n]!;
      for (let c = 0; c < cutFeeds.length; c++) cut = cut * 32 + cutFeeds[c]![n]!;
    }
    if (whole >= Number.MAX_SAFE_INTEGER || cut >= Number.MAX_SAFE_INTEGER)
      throw new Error('too many informative nodes to tell assignments apart');
    let byCut = found.get(whole);
    if (!byCut) found.set(whole, (byCut = new Map()));
    let one = byCut.get(cut);
    if (!one) {
      const nodes = informative.map((n) => ({
        node: trunk.nodes[n]!.id,
        feed: coresIn(feeds[n]! & 15),
        weak: feeds[n]! >= 16,
        view: coresIn(views[n]!),
      }));
      const faulty = new Float64Array(1 + 2 * feeds.length);
      one = { key: trunkKey(trunk.id, port, nodes), now: copyOf(now), faulty };
      byCut.set(cut, one);
    }
    one.now.prior += prior;
    const { faulty } = one;
    if (port !== 'ok') faulty[0]! += prior;
    for (let n = 0; n < feeds.length; n++) {
      faulty[1 + 2 * n]! += prior * shares[n]![kinds[n]!]!;
      if (isFaulty[n]![stations[n]!]!) faulty[2 + 2 * n]! += prior;
    }
  });
  return [...found.values()].flatMap((byCut) => [...byCut.values()]);
}
