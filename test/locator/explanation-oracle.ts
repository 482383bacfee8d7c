// The slow oracle of explanations: adds up every assignment of component modes by what it means for the informative nodes,
// straight from section 5 of the fault model.
import { alikeOf } from './alike-assignments.js';
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
import { enumerate, type OracleTrunk, oracleTrunks } from './oracle/trunks.js';

export interface OracleExplanation {
  /** As explanationKey writes it. */
  key: string;
  probability: number;
  /** P(faulty | explanation) by place, named as placeName does. */
  places: () => Record<string, number>;
}

/** What an explanation of a trunk is to the oracle: port, and each informative node's feed, weakness and view. */
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
    for (const like of evidence.alike) {
      const likelihood = likelihoodOf(evidence, like[0]!, now);
      if (likelihood === 0) continue;
      const isOfQuiet = isQuiet(evidence, like[0]!, now);
      for (const part of isOfQuiet ? (['all', 'quiet'] as const) : (['all'] as const))
        for (const s of like) {
          one.masses[part][s]! += likelihood * now.prior;
          for (let p = 0; p < faulty.length; p++)
            one.faulty[p]![part][s]! += likelihood * faulty[p]!;
        }
    }
  }
  return [...found.values()];
}

/** Explanations less probable than this are not listed: a product of trunks has millions. */
export const LEAST = 1e-8;

function multiplied(a: Float64Array, b: Float64Array): Float64Array {
  const product = new Float64Array(a.length);
  for (let s = 0; s < a.length; s++) product[s] = a[s]! * b[s]!;
  return product;
}
const times = (a: Masses, b: Masses): Masses => ({
  all: multiplied(a.all, b.all),
  quiet: multiplied(a.quiet, b.quiet),
});
function sumOf(masses: Float64Array): number {
  let sum = 0;
  for (let s = 0; s < masses.length; s++) sum += masses[s]!;
  return sum;
}
function sumOfProducts(a: Float64Array, b: Float64Array, c: Float64Array): number {
  let sum = 0;
  for (let s = 0; s < a.length; s++) sum += a[s]! * b[s]! * c[s]!;
  return sum;
}

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

/** The most probable explanations: as many as asked for and more, or all that are not less probable than LEAST. */
export function enumerateExplanations(
  request: OracleRequest,
  expected: OracleExpectation | undefined,
  count: number,
): OracleExplanation[] {
  const site = sumSite(request, expected);
  const many = explanationsOver(1000 * LEAST, request, site);
  const isEnough = many.filter(({ probability }) => probability > 10_000 * LEAST).length >= count;
  return isEnough ? many : explanationsOver(LEAST, request, site);
}

function explanationsOver(
  least: number,
  request: OracleRequest,
  { all, trunks, sums, rest }: SummedSite,
): OracleExplanation[] {
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
      if (t < sums.length) {
        for (const one of sums[t]!)
          if (sumOfProducts(masses.all, one.masses.all, rest[t + 1]!.all) >= least * total)
            visit(t + 1, [...chosen, one], times(masses, one.masses));
        return;
      }
      const mass = after(masses);
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
  const evidence = trunkEvidence(request, trunk, all);
  const ofOthers = all.map(({ prior }, s) =>
    sums.reduce(
      (product, list, t) =>
        t === at ? product : product * list.reduce((sum, one) => sum + one.masses.all[s]!, 0),
      prior,
    ),
  );
  const others = evidence.alike.map((like) => like.reduce((sum, s) => sum + ofOthers[s]!, 0));
  const asked = nodes.map((id) => trunk.nodes.findIndex((node) => node.id === id));
  let any = 0;
  let total = 0;
  enumerate(trunk, (now) => {
    // Assignments of a span that do the same are one kind; within it, so much is without any fault.
    const good = asked.reduce((product, n) => {
      const { faulty, chance } = trunk.spanKinds[n]![now.kinds[n]!]!;
      return product * (1 - faulty / chance);
    }, 1);
    evidence.alike.forEach(([first], a) => {
      const mass = now.prior * others[a]! * likelihoodOf(evidence, first!, now);
      total += mass;
      any += mass * (1 - good);
    });
  });
  return any / total;
}
