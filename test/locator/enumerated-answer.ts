// What is asked of the slow oracle, by adding up all its assignments.

import { type Assignment, enumerate, type OracleTrunk, oracleTrunks } from './enumeration.js';
import {
  type ConditionName,
  conditionOf,
  ERRORS,
  ORACLE_FUNCTIONS,
  ORACLE_RATES,
  type OracleExpectation,
  type OracleRequest,
  OUTCOMES,
  priors,
  type Rates,
} from './enumeration-tables.js';

/** One setting of what trunks share: the head-end's mode and who is confused. */
export interface Setting {
  headEnd: string;
  confused: Set<string>;
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
  const headEnds = expected
    ? priors(expected.headEnd, 1, 1)
    : priors(rates.headEnd, 1, request.exposureDays / 365.25);
  return Object.entries(headEnds).flatMap(([headEnd, chance]) =>
    Array.from({ length: 2 ** people.length }, (_, bits) => {
      const confused = new Set(people.filter((_, p) => bits & (1 << p)));
      const prior = chance * 0.02 ** confused.size * 0.98 ** (people.length - confused.size);
      return { headEnd, confused, prior };
    }),
  );
}

/** Whether an assignment of a trunk goes with the head-end's mode. */
export const isOf = ({ headEnd }: Setting, { powerless }: Pick<Assignment, 'powerless'>) =>
  (headEnd === 'power') === powerless;

/** P(everything known at one node | setting, station mode, feed) (section 4). */
export function evidenceAt(
  request: OracleRequest,
  trunk: string,
  node: { id: string; kind: string },
  setting: Setting,
  station: string,
  feed: number,
): number {
  let product = 1;
  const here = (request.observations ?? []).filter((o) => o.trunk === trunk && o.node === node.id);
  for (const o of here) {
    const { id, kind } = o.informant ?? { kind: 'office' };
    const condition = conditionOf(o.function, setting.headEnd, station, feed);
    product *=
      id !== undefined && setting.confused.has(id)
        ? 1 / 3
        : ERRORS[kind]![condition]![OUTCOMES.indexOf(o.outcome)]!;
  }
  if (request.unmentioned && node.kind === 'station')
    for (const name of request.unmentioned.functions) {
      if (here.some((o) => o.function === name)) continue;
      const rate = request.unmentioned.reportRate;
      const condition = conditionOf(name, setting.headEnd, station, feed);
      product *= { good: 1, weak: 1 - rate / 2, dead: 1 - rate }[condition];
    }
  return product;
}

export interface OracleAnswer {
  logEvidence: number;
  /** P(faulty) of each place, by a name as placeName makes it. */
  places: Record<string, number>;
  /** P(mode) by "place component mode". */
  modes: Record<string, number>;
  /** P(good), P(weak), P(dead) by "trunk node function". */
  conditions: Record<string, Record<ConditionName, number>>;
}

/** Likelihood tables of one trunk: by setting, node, station mode * 32 + feed. */
export function evidenceTables(
  request: OracleRequest,
  trunk: OracleTrunk,
  all: readonly Setting[],
): Float64Array[][] {
  return all.map((setting) =>
    trunk.nodes.map((node, n) =>
      Float64Array.from({ length: trunk.stationModes[n]!.length * 32 }, (_, i) =>
        evidenceAt(
          request,
          trunk.id,
          node,
          setting,
          trunk.stationModes[n]![Math.floor(i / 32)]![0],
          i % 32,
        ),
      ),
    ),
  );
}

function likelihoodOf(tables: Float64Array[], { stations, feeds }: Assignment): number {
  let product = 1;
  for (let n = 0; n < feeds.length; n++) product *= tables[n]![stations[n]! * 32 + feeds[n]!]!;
  return product;
}

/** The whole posterior by adding up. */
export function enumeratePosterior(
  request: OracleRequest,
  expected?: OracleExpectation,
): OracleAnswer {
  const all = settings(request, expected);
  const trunks = oracleTrunks(request, expected);
  const tables = trunks.map((trunk) => evidenceTables(request, trunk, all));
  const evidence = trunks.map((trunk, t) => {
    const sums = new Float64Array(all.length);
    enumerate(trunk, (assignment) => {
      for (let s = 0; s < all.length; s++)
        if (isOf(all[s]!, assignment))
          sums[s]! += assignment.prior * likelihoodOf(tables[t]![s]!, assignment);
    });
    return sums;
  });
  const joint = all.map((setting, s) => evidence.reduce((p, sums) => p * sums[s]!, setting.prior));
  const total = joint.reduce((sum, p) => sum + p, 0);
  const answer: OracleAnswer = {
    logEvidence: Math.log(total),
    places: {},
    modes: {},
    conditions: {},
  };
  const add = (table: Record<string, number>, key: string, mass: number) =>
    (table[key] = (table[key] ?? 0) + mass);
  add(answer.places, 'head-end', 0);
  all.forEach(({ headEnd }, s) => {
    add(answer.modes, `head-end head-end ${headEnd}`, joint[s]! / total);
    if (headEnd !== 'ok') add(answer.places, 'head-end', joint[s]! / total);
  });
  trunks.forEach((trunk, t) => addTrunk(answer, trunk, t, { all, tables, evidence, total }));
  return answer;
}

function addTrunk(
  answer: OracleAnswer,
  trunk: OracleTrunk,
  t: number,
  given: {
    all: Setting[];
    tables: Float64Array[][][];
    evidence: Float64Array[];
    total: number;
  },
): void {
  const { all, tables, evidence, total } = given;
  // What everything but this trunk gives to each setting, over the whole evidence.
  const rest = all.map(
    ({ prior }, s) =>
      evidence.reduce((p, sums, other) => (other === t ? p : p * sums[s]!), prior) / total,
  );
  const count = trunk.nodes.length;
  const port: Rates = {};
  const kindMass = trunk.spanKinds.map((kinds) => new Float64Array(kinds.length));
  const stateMass = all.map(() =>
    trunk.stationModes.map((modes) => new Float64Array(modes.length * 32)),
  );
  enumerate(trunk, (assignment) => {
    let mass = 0;
    for (let s = 0; s < all.length; s++) {
      if (!isOf(all[s]!, assignment)) continue;
      const part = rest[s]! * assignment.prior * likelihoodOf(tables[t]![s]!, assignment);
      mass += part;
      for (let n = 0; n < count; n++)
        stateMass[s]![n]![assignment.stations[n]! * 32 + assignment.feeds[n]!]! += part;
    }
    port[assignment.port] = (port[assignment.port] ?? 0) + mass;
    for (let n = 0; n < count; n++) kindMass[n]![assignment.kinds[n]!]! += mass;
  });
  const add = (table: Record<string, number>, key: string, mass: number) =>
    (table[key] = (table[key] ?? 0) + mass);
  for (const [mode, mass] of Object.entries(port)) {
    add(answer.modes, `port ${trunk.id} port ${mode}`, mass);
    add(answer.places, `port ${trunk.id}`, mode === 'ok' ? 0 : mass);
  }
  trunk.nodes.forEach((node, n) => {
    const span = `span ${trunk.id} ${node.id}`;
    trunk.spanKinds[n]!.forEach((kind, k) => {
      const share = kindMass[n]![k]! / kind.chance;
      add(answer.places, span, share * kind.faulty);
      for (const [component, modes] of Object.entries(kind.modes))
        for (const [mode, chance] of Object.entries(modes))
          add(answer.modes, `${span} ${component} ${mode}`, share * chance);
    });
    if (node.kind === 'junction-box') return;
    const station = `station ${trunk.id} ${node.id}`;
    all.forEach(({ headEnd }, s) =>
      stateMass[s]![n]!.forEach((mass, i) => {
        const [mode] = trunk.stationModes[n]![Math.floor(i / 32)]!;
        add(answer.modes, `${station} station ${mode}`, mass);
        add(answer.places, station, mode === 'ok' ? 0 : mass);
        for (const name of ORACLE_FUNCTIONS) {
          const key = `${trunk.id} ${node.id} ${name}`;
          answer.conditions[key] ??= { good: 0, weak: 0, dead: 0 };
          answer.conditions[key][conditionOf(name, headEnd, mode, i % 32)] += mass;
        }
      }),
    );
  });
}

/** I of section 5 for a technician, from the definition. */
export function oracleInformation(chances: Record<ConditionName, number>): number {
  const entropy = (list: number[]) =>
    list.reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0);
  const errors = ERRORS.technician!;
  const names = ['good', 'weak', 'dead'] as const;
  const outcomes = OUTCOMES.map((_, o) =>
    names.reduce((sum, name) => sum + chances[name] * errors[name]![o]!, 0),
  );
  return (
    entropy(outcomes) - names.reduce((sum, name) => sum + chances[name] * entropy(errors[name]!), 0)
  );
}
