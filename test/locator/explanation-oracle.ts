// The slow oracle of explanations: adds up every assignment of component modes by what it means for the informative nodes,
// straight from section 5 of the fault model.
import {
  falseAlarmRatioOf,
  isQuiet,
  likelihoodOf,
  type Setting,
  settings,
  type TrunkEvidence,
  trunkEvidence,
} from './oracle/evidence.js';
import type { OracleExpectation, OracleRequest } from './oracle/request.js';
import { bit, CORES } from './oracle/tables.js';
import { type Assignment, enumerate, type OracleTrunk, oracleTrunks } from './oracle/trunks.js';

export interface OracleExplanation {
  /** As explanationKey writes it. */
  key: string;
  probability: number;
  /** P(faulty | explanation) by place, named as placeName does. */
  places: () => Record<string, number>;
}

/** What an explanation of a trunk is to the oracle: port, and each informative node's feed, weakness and view. */
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

/** By setting, a mass and the part of it in quiet worlds. */
interface Masses {
  all: Float64Array;
  quiet: Float64Array;
}

const emptyMasses = (count: number): Masses => ({
  all: new Float64Array(count),
  quiet: new Float64Array(count),
});

/** One explanation of a trunk: by setting, P(explanation, evidence | setting), and the same with a fault at each place. */
interface TrunkExplained {
  key: string;
  masses: Masses;
  /** By place: the port, then each node's span and station. */
  faulty: Masses[];
}

/** Assignments that are one explanation and the same to all evidence, added up. */
interface Alike {
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

function alikeOf(request: OracleRequest, trunk: OracleTrunk): Alike[] {
  const informative = trunk.nodes.flatMap((_, n) => (isInformative(request, trunk, n) ? [n] : []));
  const found = new Map<string, Alike>();
  enumerate(trunk, (now) => {
    const { prior, port, powerless, kinds, stations, views, feeds, cutFeeds } = now;
    let key = String.fromCharCode(port === 'ok' ? 0 : 1, powerless ? 1 : 0);
    for (const n of informative) {
      key += String.fromCharCode(views[n]!, feeds[n]!, stations[n]!);
      for (const cut of cutFeeds) key += String.fromCharCode(cut[n]!);
    }
    let one = found.get(key);
    if (!one) {
      const nodes = informative.map((n) => ({
        node: trunk.nodes[n]!.id,
        feed: coresIn(feeds[n]! & 15),
        weak: feeds[n]! >= 16,
        view: coresIn(views[n]!),
      }));
      const faulty = new Float64Array(1 + 2 * feeds.length);
      one = { key: trunkKey(trunk.id, port, nodes), now: copyOf(now), faulty };
      found.set(key, one);
    }
    one.now.prior += prior;
    if (port !== 'ok') one.faulty[0]! += prior;
    for (let n = 0; n < feeds.length; n++) {
      const kind = trunk.spanKinds[n]![kinds[n]!]!;
      one.faulty[1 + 2 * n]! += prior * (kind.faulty / kind.chance);
      if (trunk.stationModes[n]![stations[n]!]![0] !== 'ok') one.faulty[2 + 2 * n]! += prior;
    }
  });
  return [...found.values()];
}

function sumTrunk(
  request: OracleRequest,
  trunk: OracleTrunk,
  evidence: TrunkEvidence,
  count: number,
): TrunkExplained[] {
  const found = new Map<string, TrunkExplained>();
  for (const { key, now, faulty } of alikeOf(request, trunk)) {
    const one = found.get(key) ?? {
      key,
      masses: emptyMasses(count),
      faulty: Array.from(faulty, () => emptyMasses(count)),
    };
    found.set(key, one);
    for (let s = 0; s < count; s++) {
      const likelihood = likelihoodOf(evidence, s, now);
      if (likelihood === 0) continue;
      const parts = isQuiet(evidence, s, now) ? (['all', 'quiet'] as const) : (['all'] as const);
      for (const part of parts) {
        one.masses[part][s]! += likelihood * now.prior;
        faulty.forEach((prior, p) => (one.faulty[p]![part][s]! += likelihood * prior));
      }
    }
  }
  return [...found.values()];
}

/** Explanations less probable than this are not listed: a product of trunks has millions. */
export const LEAST = 1e-8;

const multiplied = (a: Float64Array, b: Float64Array) => a.map((mass, s) => mass * b[s]!);
const times = (a: Masses, b: Masses): Masses => ({
  all: multiplied(a.all, b.all),
  quiet: multiplied(a.quiet, b.quiet),
});
const sumOf = (masses: Float64Array) => masses.reduce((sum, mass) => sum + mass, 0);

interface SummedSite {
  all: readonly Setting[];
  trunks: readonly OracleTrunk[];
  sums: readonly TrunkExplained[][];
  /** What the trunks from each one on can add, all explanations together. */
  rest: readonly Masses[];
}

function sumSite(request: OracleRequest, expected?: OracleExpectation): SummedSite {
  const all = settings(request, expected);
  const trunks = oracleTrunks(request, expected).sort((a, b) => (a.id < b.id ? -1 : 1));
  const sums = trunks.map((trunk) =>
    sumTrunk(request, trunk, trunkEvidence(request, trunk, all), all.length),
  );
  const ones = () => new Float64Array(all.length).fill(1);
  const rest: Masses[] = [{ all: ones(), quiet: ones() }];
  for (const list of [...sums].reverse()) {
    const together = emptyMasses(all.length);
    for (const { masses } of list)
      for (const part of ['all', 'quiet'] as const)
        masses[part].forEach((mass, s) => (together[part][s]! += mass));
    rest.unshift(times(together, rest[0]!));
  }
  return { all, trunks, sums, rest };
}

/** Every explanation that is not too improbable, most probable first. */
export function enumerateExplanations(
  request: OracleRequest,
  expected?: OracleExpectation,
): OracleExplanation[] {
  const { all, trunks, sums, rest } = sumSite(request, expected);
  const less = 1 - falseAlarmRatioOf(request);
  const after = (masses: Masses) => sumOf(masses.all) - less * sumOf(masses.quiet);
  const startOf = (isOne: (setting: Setting) => boolean): Masses => {
    const priors = Float64Array.from(all, (one) => (isOne(one) ? one.prior : 0));
    return { all: priors, quiet: priors };
  };
  const total = after(
    times(
      startOf(() => true),
      rest[0]!,
    ),
  );
  const placeNames = trunks.map(({ id, nodes }) => [
    `port ${id}`,
    ...nodes.flatMap((node) => [`span ${id} ${node.id}`, `station ${id} ${node.id}`]),
  ]);
  const found: OracleExplanation[] = [];
  for (const headEnd of new Set(all.map((setting) => setting.headEnd))) {
    const visit = (t: number, chosen: TrunkExplained[], masses: Masses) => {
      const whole = times(masses, rest[t]!);
      if (sumOf(whole.all) / total < LEAST) return;
      if (t < sums.length) {
        for (const one of sums[t]!) visit(t + 1, [...chosen, one], times(masses, one.masses));
        return;
      }
      const mass = after(whole);
      const placesOf = () => {
        const places: Record<string, number> = { 'head-end': headEnd === 'ok' ? 0 : 1 };
        chosen.forEach(({ masses: own, faulty }, i) => {
          faulty.forEach((fault, p) => {
            const shareOf = (part: keyof Masses) =>
              masses[part].reduce(
                (sum, one, s) =>
                  sum + (own[part][s]! > 0 ? one * (fault[part][s]! / own[part][s]!) : 0),
                0,
              );
            places[placeNames[i]![p]!] = (shareOf('all') - less * shareOf('quiet')) / mass;
          });
        });
        return places;
      };
      found.push({
        key: [headEnd, ...chosen.map(({ key }) => key)].join(' | '),
        probability: mass / total,
        places: placesOf,
      });
    };
    visit(
      0,
      [],
      startOf((setting) => setting.headEnd === headEnd),
    );
  }
  return found.sort((a, b) => b.probability - a.probability);
}

/** P(at least one of some spans of one trunk is faulty | evidence); the nodes that the spans lead into. */
export function enumerateAnyFaulty(
  request: OracleRequest,
  trunkId: string,
  nodes: readonly string[],
): number {
  const { all, trunks, sums } = sumSite(request);
  const at = trunks.findIndex(({ id }) => id === trunkId);
  const trunk = trunks[at]!;
  const others = Float64Array.from(all, ({ prior }, s) =>
    sums.reduce(
      (product, list, t) =>
        t === at ? product : product * list.reduce((sum, one) => sum + one.masses.all[s]!, 0),
      prior,
    ),
  );
  const evidence = trunkEvidence(request, trunk, all);
  const asked = nodes.map((id) => trunk.nodes.findIndex((node) => node.id === id));
  let any = 0;
  let total = 0;
  enumerate(trunk, (now) => {
    // Assignments of a span that do the same are one kind; within it, so much is without any fault.
    const good = asked.reduce((product, n) => {
      const { faulty, chance } = trunk.spanKinds[n]![now.kinds[n]!]!;
      return product * (1 - faulty / chance);
    }, 1);
    all.forEach((_, s) => {
      const mass = now.prior * others[s]! * likelihoodOf(evidence, s, now);
      total += mass;
      any += mass * (1 - good);
    });
  });
  return any / total;
}
