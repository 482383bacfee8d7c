// The whole posterior by adding up every assignment (section 5).
import { causeSums, type OracleCauses, placesOf } from './causes.js';
import {
  falseAlarmRatioOf,
  isQuiet,
  likelihoodOf,
  type Point,
  pointsOf,
  type Setting,
  settings,
  type TrunkEvidence,
  trunkEvidence,
} from './evidence.js';
import type { OracleExpectation, OracleRequest, Rates } from './request.js';
import { type ConditionName, conditionOf, ORACLE_FUNCTIONS } from './tables.js';
import { enumerate, type OracleTrunk, oracleTrunks } from './trunks.js';

export interface OracleAnswer {
  logEvidence: number;
  /** P(the function is good at every point | evidence). */
  quiet: number;
  /** P(faulty) of each place: "head-end", "port T", "span T/N", "station T/N". */
  places: Rates;
  /** P(mode) by "PLACE COMPONENT MODE". */
  modes: Rates;
  /** P(good), P(weak), P(dead) by "T/N|FUNCTION". */
  conditions: Record<string, Record<ConditionName, number>>;
}

interface Weighed {
  all: Setting[];
  trunks: OracleTrunk[];
  evidence: TrunkEvidence[];
  /** By trunk and setting: P(told of it | setting), and the part of it in quiet worlds. */
  whole: Float64Array[];
  quiet: Float64Array[];
  falseAlarmRatio: number;
  /** What all worlds and what the quiet ones weigh, before κ. */
  mass: number;
  quietMass: number;
}

const product = (list: readonly number[]) => list.reduce((a, b) => a * b, 1);

function weigh(request: OracleRequest, expected?: OracleExpectation, without = -1): Weighed {
  const all = settings(request, expected);
  const trunks = oracleTrunks(request, expected);
  const evidence = trunks.map((trunk) => trunkEvidence(request, trunk, all, without));
  const whole = trunks.map(() => new Float64Array(all.length));
  const quiet = trunks.map(() => new Float64Array(all.length));
  trunks.forEach((trunk, t) => {
    const { alike } = evidence[t]!;
    const firsts = alike.map(([first]) => first!);
    enumerate(trunk, (now) => {
      for (let a = 0; a < firsts.length; a++) {
        const s = firsts[a]!;
        const mass = now.prior * likelihoodOf(evidence[t]!, s, now);
        if (mass === 0) continue;
        whole[t]![s]! += mass;
        if (isQuiet(evidence[t]!, s, now)) quiet[t]![s]! += mass;
      }
    });
    for (const [first, ...others] of alike)
      for (const s of others) for (const sums of [whole[t]!, quiet[t]!]) sums[s] = sums[first!]!;
  });
  const total = (sums: Float64Array[]) =>
    all.reduce((sum, { prior }, s) => sum + prior * product(sums.map((list) => list[s]!)), 0);
  return {
    all,
    trunks,
    evidence,
    whole,
    quiet,
    falseAlarmRatio: falseAlarmRatioOf(request),
    mass: total(whole),
    quietMass: total(quiet),
  };
}

/** P(evidence): all worlds, those in which all is well that was complained of times κ. */
const probabilityOf = ({ mass, quietMass, falseAlarmRatio }: Weighed) =>
  mass - (1 - falseAlarmRatio) * quietMass;

/** P(evidence), not its logarithm. */
export const oracleEvidence = (request: OracleRequest, expected?: OracleExpectation) =>
  probabilityOf(weigh(request, expected));

/** P(each observation's outcome | all others); points and silent stations stay those of the whole request. */
export function oracleGiven(request: OracleRequest, expected?: OracleExpectation): number[] {
  const whole = probabilityOf(weigh(request, expected));
  return (request.observations ?? []).map(
    (_, o) => whole / probabilityOf(weigh(request, expected, o)),
  );
}

/** P(each setting of what trunks share | evidence). */
function chancesOf(weighed: Weighed): number[] {
  const { all, whole, quiet, falseAlarmRatio } = weighed;
  const total = probabilityOf(weighed);
  return all.map(({ prior }, s) => {
    const [a, q] = [whole, quiet].map((sums) => product(sums.map((list) => list[s]!)));
    return (prior * (a! - (1 - falseAlarmRatio) * q!)) / total;
  });
}

export function enumeratePosterior(
  request: OracleRequest,
  expected?: OracleExpectation,
): OracleAnswer {
  const weighed = weigh(request, expected);
  const total = probabilityOf(weighed);
  const answer: OracleAnswer = {
    logEvidence: Math.log(total),
    quiet:
      pointsOf(request).length === 0 ? 1 : (weighed.falseAlarmRatio * weighed.quietMass) / total,
    places: { 'head-end': 0 },
    modes: {},
    conditions: {},
  };
  chancesOf(weighed).forEach((chance, s) => {
    const { headEnd } = weighed.all[s]!;
    add(answer.modes, `head-end head-end ${headEnd}`, chance);
    if (headEnd !== 'ok') add(answer.places, 'head-end', chance);
  });
  weighed.trunks.forEach((_, t) => addTrunk(answer, t, weighed));
  return answer;
}

/** P(faulty) of each place before anything was told. */
export function priorPlaces(request: OracleRequest, expected?: OracleExpectation): Rates {
  const plain = { ...request, looks: [], readings: [] };
  const places: Rates = { 'head-end': 0 };
  for (const { headEnd, prior } of settings({ ...plain, observations: [] }, expected))
    if (headEnd !== 'ok') add(places, 'head-end', prior);
  const notOk = (chances: readonly (readonly [string, number])[]) =>
    chances.reduce((sum, [mode, chance]) => (mode === 'ok' ? sum : sum + chance), 0);
  for (const { id, nodes, port, spanKinds, stationModes } of oracleTrunks(plain, expected)) {
    places[`port ${id}`] = notOk(Object.entries(port));
    nodes.forEach((node, n) => {
      places[`span ${id}/${node.id}`] = spanKinds[n]!.reduce((sum, { faulty }) => sum + faulty, 0);
      places[`station ${id}/${node.id}`] = notOk(stationModes[n]!);
    });
  }
  return places;
}

/** The causes of every point, and the chance of each place that it is one. */
export function enumerateCauses(
  request: OracleRequest,
  expected?: OracleExpectation,
): { logEvidence: number; troubles: (Point & OracleCauses)[]; accounts: Rates } {
  const weighed = weigh(request, expected);
  const points = pointsOf(request);
  const chances = chancesOf(weighed);
  const found = new Map<string, OracleCauses>();
  weighed.trunks.forEach((trunk, t) => {
    const mine = points.filter((point) => point.trunk === trunk.id);
    if (mine.length === 0) return;
    const evidence = weighed.evidence[t]!;
    const { sums, addWorld } = causeSums(trunk, mine, { ...evidence, chances });
    const { together } = weightsOf(weighed, t);
    const parts = new Float64Array(together[0].length);
    enumerate(trunk, (now) => {
      for (let a = 0; a < parts.length; a++) {
        const s = evidence.alike[a]![0]!;
        const plain = now.prior * likelihoodOf(evidence, s, now);
        parts[a] = plain === 0 ? 0 : plain * together[isQuiet(evidence, s, now) ? 1 : 0][a]!;
      }
      addWorld(now, parts);
    });
    mine.forEach(({ function: name, node }, p) =>
      found.set(`${name} ${trunk.id}/${node}`, sums[p]!),
    );
  });
  const accounts: Rates = {};
  const troubles = points.map((point) => {
    const { causes, within } = found.get(`${point.function} ${point.trunk}/${point.node}`)!;
    for (const [place, mass] of Object.entries(placesOf({ causes, within })))
      accounts[place] = Math.max(accounts[place] ?? 0, mass);
    const short = causes[`short ${point.trunk}`] ?? 0;
    const given = Object.entries(within).map(([place, mass]) => [place, mass / short]);
    return { ...point, causes, within: Object.fromEntries(given) as Rates };
  });
  return { logEvidence: Math.log(probabilityOf(weighed)), troubles, accounts };
}

const add = (table: Rates, key: string, mass: number) => (table[key] = (table[key] ?? 0) + mass);

/** What a world weighs beside its mass on this trunk alone, if it is loud and if it is quiet. */
type Weights = [loud: number[], quiet: number[]];

function weightsOf(
  weighed: Weighed,
  t: number,
): { bySetting: Weights; /** Of settings that are alike. */ together: Weights } {
  const { all, whole, quiet, falseAlarmRatio, evidence } = weighed;
  const total = probabilityOf(weighed);
  const { alike } = evidence[t]!;
  const rest = (sums: Float64Array[]) =>
    all.map(
      ({ prior }, s) =>
        (prior * product(sums.map((list, other) => (other === t ? 1 : list[s]!)))) / total,
    );
  const [loud, calm] = [rest(whole), rest(quiet)];
  const ofQuiet = loud.map((one, s) => one - (1 - falseAlarmRatio) * calm[s]!);
  const sums = (list: readonly number[]) =>
    alike.map((like) => like.reduce((sum, s) => sum + list[s]!, 0));
  return { bySetting: [loud, ofQuiet], together: [sums(loud), sums(ofQuiet)] };
}

function addTrunk(answer: OracleAnswer, t: number, weighed: Weighed): void {
  const { all } = weighed;
  const trunk = weighed.trunks[t]!;
  const evidence = weighed.evidence[t]!;
  const { bySetting, together } = weightsOf(weighed, t);
  const { alike } = evidence;
  const count = trunk.nodes.length;
  const port: Rates = {};
  const kindMass = trunk.spanKinds.map((kinds) => new Float64Array(kinds.length));
  // By whether quiet, settings that are alike, node, station mode * 32 + feed: on this trunk alone.
  const stateMass = bySetting.map(() =>
    alike.map(() => trunk.stationModes.map((modes) => new Float64Array(modes.length * 32))),
  );
  enumerate(trunk, (now) => {
    let mass = 0;
    for (let a = 0; a < alike.length; a++) {
      const s = alike[a]![0]!;
      const plain = now.prior * likelihoodOf(evidence, s, now);
      if (plain === 0) continue;
      const isOfQuiet = isQuiet(evidence, s, now) ? 1 : 0;
      const states = stateMass[isOfQuiet]![a]!;
      for (let n = 0; n < count; n++) states[n]![now.stations[n]! * 32 + now.feeds[n]!]! += plain;
      mass += plain * together[isOfQuiet][a]!;
    }
    add(port, now.port, mass);
    for (let n = 0; n < count; n++) kindMass[n]![now.kinds[n]!]! += mass;
  });
  for (const [mode, mass] of Object.entries(port)) {
    add(answer.modes, `port ${trunk.id} port ${mode}`, mass);
    add(answer.places, `port ${trunk.id}`, mode === 'ok' ? 0 : mass);
  }
  trunk.nodes.forEach((node, n) => {
    const span = `span ${trunk.id}/${node.id}`;
    trunk.spanKinds[n]!.forEach((kind, k) => {
      const share = kindMass[n]![k]! / kind.chance;
      add(answer.places, span, share * kind.faulty);
      for (const [component, modes] of Object.entries(kind.modes))
        for (const [mode, chance] of Object.entries(modes))
          add(answer.modes, `${span} ${component} ${mode}`, share * chance);
    });
    if (node.kind === 'junction-box' || node.isOut) return;
    const station = `station ${trunk.id}/${node.id}`;
    alike.forEach((like, a) => {
      const [loud, calm] = stateMass.map((masses) => masses[a]![n]!);
      for (const s of like)
        loud!.forEach((mass, i) => {
          const [mode] = trunk.stationModes[n]![Math.floor(i / 32)]!;
          const chance = mass * bySetting[0][s]! + calm![i]! * bySetting[1][s]!;
          add(answer.modes, `${station} station ${mode}`, chance);
          add(answer.places, station, mode === 'ok' ? 0 : chance);
          for (const name of ORACLE_FUNCTIONS) {
            if (node.lacks?.includes(name)) continue;
            const key = `${trunk.id}/${node.id}|${name}`;
            answer.conditions[key] ??= { good: 0, weak: 0, dead: 0 };
            const condition = conditionOf(name, all[s]!.headEnd, mode, i % 32, node.groups);
            answer.conditions[key][condition] += chance;
          }
        });
    });
  });
}
