// The slow oracle of explanations: adds up every assignment of component modes by what it means for the informative nodes,
// straight from section 5 of the fault model.
import {
  bit,
  enumerate,
  evidenceTables,
  isOf,
  type OracleExpectation,
  type OracleRequest,
  type OracleTrunk,
  oracleTrunks,
  type Setting,
  settings,
} from './enumeration.js';

export interface OracleExplanation {
  /** As explanationKey writes it. */
  key: string;
  probability: number;
  /** P(faulty | explanation) by place, named as placeName does. */
  places: Record<string, number>;
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

const CORES = ['supply', 'return', 'speech', 'select'];
const coresIn = (set: number) => CORES.filter((core) => set & bit(core));

function isInformative(request: OracleRequest, trunk: OracleTrunk, n: number): boolean {
  const { id, kind } = trunk.nodes[n]!;
  if (trunk.feeder.filter((feeder) => feeder === n).length > 1) return true;
  const heard = (request.observations ?? []).filter((o) => o.trunk === trunk.id && o.node === id);
  if (heard.length > 0) return true;
  const isRead = request.readings?.some(
    (r) => r.kind === 'supply-volts' && r.trunk === trunk.id && r.node === id,
  );
  if (isRead) return true;
  if (!request.unmentioned || kind !== 'station') return false;
  return request.unmentioned.functions.length > 0;
}

/** One explanation of a trunk: by setting, P(explanation, evidence | setting), and the same with a fault at each place. */
interface TrunkExplained {
  key: string;
  masses: Float64Array;
  /** By place: the port, then each node's span and station. */
  faulty: Float64Array[];
}

function sumTrunk(
  request: OracleRequest,
  trunk: OracleTrunk,
  tables: Float64Array[][],
  all: readonly Setting[],
): TrunkExplained[] {
  const informative = trunk.nodes.flatMap((_, n) => (isInformative(request, trunk, n) ? [n] : []));
  const found = new Map<number, TrunkExplained>();
  const count = tables.length;
  enumerate(trunk, ({ prior, powerless, port, kinds, stations, views, feeds }) => {
    let code = port === 'ok' ? 0 : 1;
    for (const n of informative) code = (code * 16 + views[n]!) * 32 + feeds[n]!;
    let one = found.get(code);
    if (!one) {
      const nodes = informative.map((n) => ({
        node: trunk.nodes[n]!.id,
        feed: coresIn(feeds[n]! & 15),
        weak: feeds[n]! >= 16,
        view: coresIn(views[n]!),
      }));
      one = {
        key: trunkKey(trunk.id, port, nodes),
        masses: new Float64Array(count),
        faulty: Array.from({ length: 1 + 2 * feeds.length }, () => new Float64Array(count)),
      };
      found.set(code, one);
    }
    for (let s = 0; s < count; s++) {
      if (!isOf(all[s]!, { powerless })) continue;
      let mass = prior;
      for (let n = 0; n < feeds.length; n++) mass *= tables[s]![n]![stations[n]! * 32 + feeds[n]!]!;
      if (mass === 0) continue;
      one.masses[s]! += mass;
      if (port !== 'ok') one.faulty[0]![s]! += mass;
      for (let n = 0; n < feeds.length; n++) {
        const kind = trunk.spanKinds[n]![kinds[n]!]!;
        one.faulty[1 + 2 * n]![s]! += mass * (kind.faulty / kind.chance);
        if (trunk.stationModes[n]![stations[n]!]![0] !== 'ok') one.faulty[2 + 2 * n]![s]! += mass;
      }
    }
  });
  return [...found.values()];
}

/** Explanations less probable than this are not listed: a product of trunks has millions. */
const LEAST = 1e-10;

/** Every explanation that is not too improbable, most probable first. */
export function enumerateExplanations(
  request: OracleRequest,
  expected?: OracleExpectation,
): OracleExplanation[] {
  const all = settings(request, expected);
  const trunks = oracleTrunks(request, expected).sort((a, b) => (a.id < b.id ? -1 : 1));
  const sums = trunks.map((trunk) =>
    sumTrunk(request, trunk, evidenceTables(request, trunk, all), all),
  );
  const placeNames = trunks.map(({ id, nodes }) => [
    `port ${id}`,
    ...nodes.flatMap((node) => [`span ${id} ${node.id}`, `station ${id} ${node.id}`]),
  ]);
  // What the trunks from each one on can add, all explanations together.
  const rest = [new Float64Array(all.length).fill(1)];
  for (const list of [...sums].reverse())
    rest.unshift(
      rest[0]!.map((after, s) => after * list.reduce((sum, { masses }) => sum + masses[s]!, 0)),
    );
  const sumOf = (masses: Float64Array, t: number) =>
    masses.reduce((sum, mass, s) => sum + mass * rest[t]![s]!, 0);
  const total = sumOf(
    Float64Array.from(all, ({ prior }) => prior),
    0,
  );
  const found: OracleExplanation[] = [];
  for (const headEnd of new Set(all.map((setting) => setting.headEnd))) {
    const visit = (t: number, chosen: TrunkExplained[], masses: Float64Array) => {
      const probability = sumOf(masses, t) / total;
      if (probability < LEAST) return;
      if (t < sums.length) {
        for (const one of sums[t]!)
          visit(
            t + 1,
            [...chosen, one],
            masses.map((mass, s) => mass * one.masses[s]!),
          );
        return;
      }
      const places: Record<string, number> = { 'head-end': headEnd === 'ok' ? 0 : 1 };
      chosen.forEach(({ masses: own, faulty }, i) => {
        faulty.forEach((fault, p) => {
          const mass = masses.reduce(
            (sum, whole, s) => sum + (own[s]! > 0 ? whole * (fault[s]! / own[s]!) : 0),
            0,
          );
          places[placeNames[i]![p]!] = mass / total / probability;
        });
      });
      found.push({
        key: [headEnd, ...chosen.map(({ key }) => key)].join(' | '),
        probability,
        places,
      });
    };
    visit(
      0,
      [],
      Float64Array.from(all, (s) => (s.headEnd === headEnd ? s.prior : 0)),
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
  const all = settings(request);
  const trunks = oracleTrunks(request);
  let any = 0;
  let total = 0;
  const others = Float64Array.from(all, ({ prior }) => prior);
  for (const trunk of trunks.filter(({ id }) => id !== trunkId)) {
    const list = sumTrunk(request, trunk, evidenceTables(request, trunk, all), all);
    others.forEach((_, s) => (others[s]! *= list.reduce((sum, one) => sum + one.masses[s]!, 0)));
  }
  const trunk = trunks.find(({ id }) => id === trunkId)!;
  const tables = evidenceTables(request, trunk, all);
  const asked = nodes.map((id) => trunk.nodes.findIndex((node) => node.id === id));
  enumerate(trunk, ({ prior, powerless, kinds, stations, feeds }) => {
    // Assignments of a span that do the same are one kind; within it, so much is without any fault.
    const good = asked.reduce((product, n) => {
      const { faulty, chance } = trunk.spanKinds[n]![kinds[n]!]!;
      return product * (1 - faulty / chance);
    }, 1);
    all.forEach((setting, s) => {
      if (!isOf(setting, { powerless })) return;
      let mass = prior * others[s]!;
      for (let n = 0; n < feeds.length; n++) mass *= tables[s]![n]![stations[n]! * 32 + feeds[n]!]!;
      total += mass;
      any += mass * (1 - good);
    });
  });
  return any / total;
}
