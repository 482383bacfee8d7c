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
  troubles: (Point & OracleCauses)[];
  accounts: Rates;
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
    enumerate(trunk, (now) => {
      for (let s = 0; s < all.length; s++) {
        const mass = now.prior * likelihoodOf(evidence[t]!, s, now);
        if (mass === 0) continue;
        whole[t]![s]! += mass;
        if (isQuiet(evidence[t]!, s, now)) quiet[t]![s]! += mass;
      }
    });
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

export function enumeratePosterior(
  request: OracleRequest,
  expected?: OracleExpectation,
): OracleAnswer {
  const weighed = weigh(request, expected);
  const { all, trunks, whole, quiet, falseAlarmRatio } = weighed;
  const total = probabilityOf(weighed);
  const points = pointsOf(request);
  const answer: OracleAnswer = {
    logEvidence: Math.log(total),
    quiet: points.length === 0 ? 1 : (falseAlarmRatio * weighed.quietMass) / total,
    places: { 'head-end': 0 },
    modes: {},
    conditions: {},
    troubles: [],
    accounts: {},
  };
  all.forEach(({ headEnd, prior }, s) => {
    const [a, q] = [whole, quiet].map((sums) => product(sums.map((list) => list[s]!)));
    const chance = (prior * (a! - (1 - falseAlarmRatio) * q!)) / total;
    add(answer.modes, `head-end head-end ${headEnd}`, chance);
    if (headEnd !== 'ok') add(answer.places, 'head-end', chance);
  });
  const troubles = new Map<string, OracleCauses>();
  trunks.forEach((trunk, t) => {
    const mine = points.filter((point) => point.trunk === trunk.id);
    const { sums, addWorld } = causeSums(trunk, mine, all);
    addTrunk(answer, t, weighed, addWorld);
    mine.forEach((point, p) =>
      troubles.set(`${point.function} ${point.trunk}/${point.node}`, sums[p]!),
    );
  });
  answer.troubles = points.map((point) => {
    const { causes, within } = troubles.get(`${point.function} ${point.trunk}/${point.node}`)!;
    for (const [place, mass] of Object.entries(placesOf({ causes, within })))
      answer.accounts[place] = Math.max(answer.accounts[place] ?? 0, mass);
    const short = causes[`short ${point.trunk}`] ?? 0;
    const given = Object.entries(within).map(([place, mass]) => [place, mass / short]);
    return { ...point, causes, within: Object.fromEntries(given) as Rates };
  });
  return answer;
}

const add = (table: Rates, key: string, mass: number) => (table[key] = (table[key] ?? 0) + mass);

function addTrunk(
  answer: OracleAnswer,
  t: number,
  weighed: Weighed,
  addWorld: ReturnType<typeof causeSums>['addWorld'],
): void {
  const { all, trunks, whole, quiet, falseAlarmRatio } = weighed;
  const trunk = trunks[t]!;
  const evidence = weighed.evidence[t]!;
  const total = probabilityOf(weighed);
  // What everything but this trunk gives to each setting: all of it, and its quiet part.
  const rest = (sums: Float64Array[]) =>
    all.map(
      ({ prior }, s) =>
        (prior * product(sums.map((list, other) => (other === t ? 1 : list[s]!)))) / total,
    );
  const [restWhole, restQuiet] = [rest(whole), rest(quiet)];
  const count = trunk.nodes.length;
  const port: Rates = {};
  const kindMass = trunk.spanKinds.map((kinds) => new Float64Array(kinds.length));
  const stateMass = all.map(() =>
    trunk.stationModes.map((modes) => new Float64Array(modes.length * 32)),
  );
  const parts = new Float64Array(all.length);
  enumerate(trunk, (now) => {
    let mass = 0;
    parts.fill(0);
    for (let s = 0; s < all.length; s++) {
      const plain = now.prior * likelihoodOf(evidence, s, now);
      if (plain === 0) continue;
      const less = isQuiet(evidence, s, now) ? (1 - falseAlarmRatio) * restQuiet[s]! : 0;
      const part = plain * (restWhole[s]! - less);
      mass += part;
      for (let n = 0; n < count; n++)
        stateMass[s]![n]![now.stations[n]! * 32 + now.feeds[n]!]! += part;
      parts[s] = part;
    }
    addWorld(now, parts);
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
    all.forEach(({ headEnd }, s) => {
      stateMass[s]![n]!.forEach((mass, i) => {
        const [mode] = trunk.stationModes[n]![Math.floor(i / 32)]!;
        add(answer.modes, `${station} station ${mode}`, mass);
        add(answer.places, station, mode === 'ok' ? 0 : mass);
        for (const name of ORACLE_FUNCTIONS) {
          if (node.lacks?.includes(name)) continue;
          const key = `${trunk.id}/${node.id}|${name}`;
          answer.conditions[key] ??= { good: 0, weak: 0, dead: 0 };
          answer.conditions[key][conditionOf(name, headEnd, mode, i % 32, node.groups)] += mass;
        }
      });
    });
  });
}
