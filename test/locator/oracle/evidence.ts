// Section 4: what was told, given everything.
import { afterLooks, headEndRates, looksAt, priors } from './mode-chances.js';
import type { OracleExpectation, OracleNode, OracleObservation, OracleRequest } from './request.js';
import { conditionOf, ERRORS, ORACLE_RATES, OUTCOMES } from './tables.js';
import type { Assignment, OracleTrunk } from './trunks.js';

/** One setting of what trunks share: the head-end's mode and who is confused. */
export interface Setting {
  headEnd: string;
  confused: Set<string>;
  /** With what was seen of the head-end. */
  prior: number;
}

export function settings(request: OracleRequest, expected?: OracleExpectation): Setting[] {
  const rates = { ...ORACLE_RATES, ...request.rates };
  const people = [
    ...new Set(
      (request.observations ?? []).flatMap(({ informant }) =>
        informant?.id !== undefined && informant.kind === 'office' ? [informant.id] : [],
      ),
    ),
  ];
  const headEnds = afterLooks(
    expected
      ? priors(expected.headEnd, 1, 1)
      : priors(headEndRates(request, rates.headEnd), 1, request.exposureDays / 365.25),
    looksAt(request, ({ place }) => place.kind === 'head-end'),
  );
  return Object.entries(headEnds)
    .filter(([, chance]) => chance > 0)
    .flatMap(([headEnd, chance]) =>
      Array.from({ length: 2 ** people.length }, (_, bits) => {
        const confused = new Set(people.filter((_, p) => bits & (1 << p)));
        const prior = chance * 0.02 ** confused.size * 0.98 ** (people.length - confused.size);
        return { headEnd, confused, prior };
      }),
    );
}

function told(o: OracleObservation, setting: Setting, condition: string): number {
  const { id, kind } = o.informant ?? { kind: 'office' };
  if (id !== undefined && setting.confused.has(id)) return 1 / 3;
  return ERRORS[kind]![condition]![OUTCOMES.indexOf(o.outcome)]!;
}

const hasNothing = (node: OracleNode, name: string) =>
  node.kind === 'junction-box' || node.isOut || node.lacks?.includes(name);

/** What was said with the trunk whole that something is weak or fails. */
export const isComplaint = ({ outcome, disconnectedBelow }: OracleObservation) =>
  outcome !== 'works' && disconnectedBelow === undefined;

export interface Point {
  function: string;
  trunk: string;
  node: string;
}

/** The points of a request, in the order told. */
export function pointsOf(request: OracleRequest): Point[] {
  const found = new Map<string, Point>();
  for (const o of (request.observations ?? []).filter(isComplaint))
    found.set(`${o.function} ${o.trunk}/${o.node}`, o);
  return [...found.values()].map(({ function: name, trunk, node }) => ({
    function: name,
    trunk,
    node,
  }));
}

/** Likelihoods of one trunk by what they depend on: station mode * 32 + feed, with the trunk whole or at one of its cuts. */
export interface TrunkEvidence {
  settings: readonly Setting[];
  /** By setting. */
  factors: { n: number; cut: number; table: Float64Array }[][];
  /** By setting: 1 where a function that was complained of is good. */
  quiet: { n: number; table: Float64Array }[][];
  /** Settings in which all of this is the same, so that one of them speaks for all. */
  alike: number[][];
}

function alikeSettings({
  settings: all,
  factors,
  quiet,
}: Omit<TrunkEvidence, 'alike'>): number[][] {
  const found: number[][] = [];
  const isSame = (a: readonly Float64Array[], b: readonly Float64Array[]) =>
    a.every((table, i) => table.every((value, at) => value === b[i]![at]));
  const tablesOf = (s: number) => [...factors[s]!, ...quiet[s]!].map(({ table }) => table);
  const isPowerless = (s: number) => all[s]!.headEnd === 'power';
  all.forEach((_, s) => {
    const tables = tablesOf(s);
    const like = found.find(
      ([first]) => isPowerless(first!) === isPowerless(s) && isSame(tables, tablesOf(first!)),
    );
    if (like) like.push(s);
    else found.push([s]);
  });
  return found;
}

/** What is asked of one node in one setting. */
interface At {
  trunk: string;
  node: OracleNode;
  setting: Setting;
  /** The index of an observation that does not count, though it breaks its silence. */
  without?: number;
}

/** P(what was said of a node, and not said, with the trunk whole | its station's mode, its feed); undefined where nothing is. */
export function evidenceAt(
  request: OracleRequest,
  { trunk, node, setting, without }: At,
): ((station: string, feed: number) => number) | undefined {
  const { reportRate, functions } = request.unmentioned ?? { reportRate: 0, functions: [] };
  const here = (request.observations ?? [])
    .map((o, index) => ({ ...o, index }))
    .filter((o) => o.trunk === trunk && o.node === node.id && o.disconnectedBelow === undefined);
  const heard = here.filter(({ index }) => index !== without);
  const silent = functions.filter(
    (name) => !hasNothing(node, name) && !here.some((o) => o.function === name),
  );
  if (heard.length + silent.length === 0) return undefined;
  return (station, feed) => {
    const condition = (name: string) =>
      conditionOf(name, setting.headEnd, station, feed, node.groups);
    const unsaid = (name: string) =>
      ({ good: 1, weak: 1 - reportRate / 2, dead: 1 - reportRate })[condition(name)];
    return heard.reduce(
      (product, o) => product * told(o, setting, condition(o.function)),
      silent.reduce((product, name) => product * unsaid(name), 1),
    );
  };
}

/** `without`: the index of an observation that does not count, though it keeps its point and breaks its silence. */
export function trunkEvidence(
  request: OracleRequest,
  trunk: OracleTrunk,
  all: readonly Setting[],
  without = -1,
): TrunkEvidence {
  const tableOf = (n: number, value: (station: string, feed: number) => number) =>
    Float64Array.from({ length: trunk.stationModes[n]!.length * 32 }, (_, i) =>
      value(trunk.stationModes[n]![Math.floor(i / 32)]![0], i % 32),
    );
  const observations = request.observations ?? [];
  const points = pointsOf(request).filter((point) => point.trunk === trunk.id);
  const tables = {
    settings: all,
    factors: all.map((setting) =>
      trunk.nodes.flatMap((node, n) => {
        const cuts = observations.flatMap((o, index) => {
          if (index === without || o.disconnectedBelow === undefined) return [];
          if (o.trunk !== trunk.id || o.node !== node.id) return [];
          const at = trunk.nodes.findIndex(({ id }) => id === o.disconnectedBelow);
          const table = tableOf(n, (station, feed) =>
            told(o, setting, conditionOf(o.function, setting.headEnd, station, feed, node.groups)),
          );
          return [{ n, cut: trunk.cuts.indexOf(at), table }];
        });
        const ofWhole = evidenceAt(request, { trunk: trunk.id, node, setting, without });
        if (ofWhole === undefined) return cuts;
        return [{ n, cut: -1, table: tableOf(n, ofWhole) }, ...cuts];
      }),
    ),
    quiet: all.map(({ headEnd }) =>
      points.map((point) => {
        const n = trunk.nodes.findIndex(({ id }) => id === point.node);
        const { groups } = trunk.nodes[n]!;
        const isGood = (station: string, feed: number) =>
          conditionOf(point.function, headEnd, station, feed, groups) === 'good' ? 1 : 0;
        return { n, table: tableOf(n, isGood) };
      }),
    ),
  };
  return { ...tables, alike: alikeSettings(tables) };
}

/** P(what was told of the trunk, | setting s, assignment); 0 where the two disagree about the head-end's power. */
export function likelihoodOf(evidence: TrunkEvidence, s: number, now: Assignment): number {
  if ((evidence.settings[s]!.headEnd === 'power') !== now.powerless) return 0;
  const factors = evidence.factors[s]!;
  let product = 1;
  for (let i = 0; i < factors.length; i++) {
    const { n, cut, table } = factors[i]!;
    const feeds = cut < 0 ? now.feeds : now.cutFeeds[cut]!;
    product *= table[now.stations[n]! * 32 + feeds[n]!]!;
  }
  return product;
}

export function isQuiet(evidence: TrunkEvidence, s: number, now: Assignment): boolean {
  const points = evidence.quiet[s]!;
  for (let p = 0; p < points.length; p++) {
    const { n, table } = points[p]!;
    if (table[now.stations[n]! * 32 + now.feeds[n]!] !== 1) return false;
  }
  return true;
}

/** How much less the worlds weigh in which all is well that was complained of. */
export function falseAlarmRatioOf(request: OracleRequest): number {
  return request.begunBy === 'round' || pointsOf(request).length === 0
    ? 1
    : (request.falseAlarmRatio ?? 0.02);
}
