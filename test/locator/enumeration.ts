// The slow oracle: adds up EVERY assignment of component modes, straight from the fault model's sections 2 to 4. It shares
// no code and no table with the locator. Trunks of up to three nodes; larger rate tables only with fewer nodes.

import { type OracleElectrical, type OracleReading, readingFactor } from './readings-oracle.js';

type Rates = Record<string, number>;

export interface OracleRequest {
  trunks: {
    id: string;
    nodes: {
      id: string;
      kind: 'station' | 'junction-box';
      fedFrom?: string | null;
      cableMetres: number;
      exposureDays?: number;
    }[];
  }[];
  exposureDays: number;
  rates?: Partial<Record<'headEnd' | 'port' | 'station' | 'junction' | 'cablePerMetre', Rates>>;
  observations?: {
    trunk: string;
    node: string;
    function: string;
    outcome: string;
    informant?: { id?: string; kind: string };
  }[];
  unmentioned?: { reportRate: number; functions: string[] };
  electrical?: OracleElectrical;
  readings?: OracleReading[];
}

/** Beside a request: λt of each mode of each component, in place of rates and exposures. */
export interface OracleExpectation {
  headEnd: Rates;
  trunks: {
    id: string;
    port: Rates;
    nodes: { id: string; junctionOut: Rates; cable: Rates; junctionIn: Rates; station: Rates }[];
  }[];
}

export const ORACLE_RATES = {
  headEnd: {
    power: 0.08,
    amplifier: 0.04,
    receiver: 0.02,
    selector: 0.02,
    'bell-source': 0.06,
    microphone: 0.05,
    'line-input': 0.02,
  },
  port: { 'no-output': 0.02 },
  station: {
    dead: 0.012,
    speaker: 0.006,
    'volume-down': 0.03,
    microphone: 0.008,
    address: 0.002,
    lamp: 0.004,
    'bell-setting': 0.003,
    'announcement-setting': 0.003,
    'music-setting': 0.003,
    'short-supply': 0.001,
  },
  junction: {
    parted: 0.002,
    'open-supply': 0.0015,
    'open-return': 0.0015,
    'open-speech': 0.0015,
    'open-select': 0.0015,
    'short-supply': 0.0002,
    'short-speech': 0.0002,
    'short-select': 0.0002,
    resistive: 0.002,
  },
  cablePerMetre: {
    parted: 4e-5,
    'open-supply': 1e-5,
    'open-return': 1e-5,
    'open-speech': 1e-5,
    'open-select': 1e-5,
    'short-supply': 5e-6,
    'short-speech': 5e-6,
    'short-select': 5e-6,
    resistive: 5e-6,
  },
};

const SOUND = ['announcement', 'bell', 'music', 'room-call'];
export const HEAD_END_STOPS: Record<string, string[]> = {
  ok: [],
  power: ['lamp', 'announcement', 'bell', 'music', 'room-call', 'talkback'],
  amplifier: SOUND,
  receiver: ['talkback'],
  selector: ['room-call', 'talkback'],
  'bell-source': ['bell'],
  microphone: ['announcement', 'room-call'],
  'line-input': ['music'],
};
export const STATION_STOPS: Record<string, string[]> = {
  ok: [],
  dead: ['lamp', 'announcement', 'bell', 'music', 'room-call', 'talkback'],
  speaker: SOUND,
  'volume-down': SOUND,
  microphone: ['talkback'],
  address: ['room-call', 'talkback'],
  lamp: ['lamp'],
  'bell-setting': ['bell'],
  'announcement-setting': ['announcement'],
  'music-setting': ['music'],
  'short-supply': [],
};
const NEEDS: Record<string, string[]> = {
  lamp: ['supply', 'return'],
  announcement: ['supply', 'return', 'speech'],
  bell: ['supply', 'return', 'speech'],
  music: ['supply', 'return', 'speech'],
  'room-call': ['supply', 'return', 'speech', 'select'],
  talkback: ['supply', 'return', 'speech', 'select'],
};
export const ORACLE_FUNCTIONS = Object.keys(NEEDS);
export const ERRORS: Record<string, Record<string, number[]>> = {
  office: { good: [0.94, 0.03, 0.03], weak: [0.35, 0.45, 0.2], dead: [0.015, 0.005, 0.98] },
  technician: {
    good: [0.985, 0.01, 0.005],
    weak: [0.1, 0.85, 0.05],
    dead: [0.003, 0.002, 0.995],
  },
};
export const OUTCOMES = ['works', 'weak', 'fails'];

const CORES = ['supply', 'return', 'speech', 'select'];
const ALL = 15;
export const bit = (core: string) => 1 << CORES.indexOf(core);
export function priors(rates: Rates, scale: number, years: number): Rates {
  const total = Object.values(rates).reduce((sum, rate) => sum + rate * scale, 0);
  const chances: Rates = { ok: Math.exp(-total * years) };
  for (const [mode, rate] of Object.entries(rates))
    chances[mode] = total > 0 ? (1 - Math.exp(-total * years)) * ((rate * scale) / total) : 0;
  return chances;
}

/** Section 3: what a component in a mode makes of the view below it. */
export function upThrough(mode: string, view: number): number {
  if (mode === 'parted' || mode === 'open-return') return 0;
  if (mode.startsWith('open-')) return view & ~bit(mode.slice(5));
  if (mode.startsWith('short-')) return view | bit(mode.slice(6));
  return view;
}

/** Section 3: what it makes of the feed above it; a feed is a set of cores, plus 16 where the supply is weak. */
export function downThrough(mode: string, feed: number): number {
  if (mode === 'parted') return feed & 16;
  if (mode.startsWith('open-')) return feed & ~bit(mode.slice(5));
  return mode === 'resistive' ? feed | 16 : feed;
}

interface SpanKind {
  chance: number;
  /** The three modes, where readings tell them apart. */
  detail: string[];
  up: number[];
  down: number[];
  /** Chances of each component's modes together with this kind; and of any fault. */
  modes: Record<string, Rates>;
  faulty: number;
}

/**
 * Every assignment of a span's three components; those that do the same to every view and feed (and `inDetail` are of the
 * same modes, good joints and bad ones alike) are kept as one.
 */
function spanKinds(
  junctionOut: Rates,
  cable: Rates,
  junctionIn: Rates,
  inDetail: boolean,
): SpanKind[] {
  const kinds = new Map<string, SpanKind>();
  for (const [out, pOut] of Object.entries(junctionOut))
    for (const [middle, pMiddle] of Object.entries(cable))
      for (const [inward, pIn] of Object.entries(junctionIn)) {
        const chance = pOut * pMiddle * pIn;
        if (chance === 0) continue;
        const up = Array.from({ length: 8 }, (_, v) => {
          // Views hold supply, speech, select; counted through 0..7 and spread over the core bits.
          const view = (v & 1) | ((v & 6) << 1);
          return upThrough(out, upThrough(middle, upThrough(inward, view)));
        });
        const down = Array.from({ length: 32 }, (_, feed) =>
          downThrough(inward, downThrough(middle, downThrough(out, feed))),
        );
        const carries = (mode: string) => mode === 'ok' || mode === 'resistive';
        const detail = inDetail ? [out, middle, inward].map((m) => (carries(m) ? '' : m)) : [];
        const key = [...up, ...down, ...detail].join();
        const kind = kinds.get(key) ?? {
          chance: 0,
          detail,
          up,
          down,
          modes: { 'junction-out': {}, cable: {}, 'junction-in': {} },
          faulty: 0,
        };
        kinds.set(key, kind);
        kind.chance += chance;
        const add = (component: string, mode: string) =>
          (kind.modes[component]![mode] = (kind.modes[component]![mode] ?? 0) + chance);
        add('junction-out', out);
        add('cable', middle);
        add('junction-in', inward);
        if (!(out === 'ok' && middle === 'ok' && inward === 'ok')) kind.faulty += chance;
      }
  return [...kinds.values()];
}

export type ConditionName = 'good' | 'weak' | 'dead';

export function conditionOf(
  name: string,
  headEnd: string,
  station: string,
  feed: number,
): ConditionName {
  const missing = NEEDS[name]!.some((core) => !(feed & bit(core)));
  if (missing || HEAD_END_STOPS[headEnd]!.includes(name) || STATION_STOPS[station]!.includes(name))
    return 'dead';
  return feed & 16 ? 'weak' : 'good';
}

/** One assignment of a trunk, as the visitor sees it: arrays are reused between visits. */
export interface Assignment {
  prior: number;
  /** The head-end gives no supply: for the settings in which it is in `power`, and no others. */
  powerless: boolean;
  port: string;
  kinds: Int32Array;
  stations: Int32Array;
  views: Int32Array;
  feeds: Int32Array;
}

export interface OracleTrunk {
  id: string;
  nodes: OracleRequest['trunks'][number]['nodes'];
  feeder: number[];
  spanKinds: SpanKind[][];
  stationModes: [string, number][][];
  port: Rates;
  /** Whether the head-end may be in `power`. */
  losesPower: boolean;
  /** P(readings | assignment); left out without any. */
  factor?: (assignment: Assignment) => number;
}

export function oracleTrunks(request: OracleRequest, expected?: OracleExpectation): OracleTrunk[] {
  const rates = { ...ORACLE_RATES, ...request.rates };
  const years = (days: number) => days / 365.25;
  return request.trunks.map(({ id, nodes }) => {
    const inDetail = request.readings?.some((reading) => reading.trunk === id) ?? false;
    const own = expected?.trunks.find((trunk) => trunk.id === id);
    const ownNode = (node: string) => own?.nodes.find((one) => one.id === node);
    const trunk: OracleTrunk = {
      id,
      nodes,
      feeder: nodes.map(({ fedFrom }, n) =>
        fedFrom === undefined ? n - 1 : nodes.findIndex((node) => node.id === fedFrom),
      ),
      spanKinds: nodes.map((node) => {
        const t = years(node.exposureDays ?? request.exposureDays);
        const mine = ownNode(node.id);
        if (mine)
          return spanKinds(
            priors(mine.junctionOut, 1, 1),
            priors(mine.cable, 1, 1),
            priors(mine.junctionIn, 1, 1),
            inDetail,
          );
        const junction = priors(rates.junction, 1, t);
        const cable = priors(rates.cablePerMetre, node.cableMetres, t);
        return spanKinds(junction, cable, junction, inDetail);
      }),
      stationModes: nodes.map((node) => {
        if (node.kind === 'junction-box') return [['ok', 1]];
        const mine = ownNode(node.id);
        return Object.entries(
          mine
            ? priors(mine.station, 1, 1)
            : priors(rates.station, 1, years(node.exposureDays ?? request.exposureDays)),
        ).filter(([, chance]) => chance > 0);
      }),
      port: own ? priors(own.port, 1, 1) : priors(rates.port, 1, years(request.exposureDays)),
      losesPower: ((expected?.headEnd ?? rates.headEnd).power ?? 0) > 0,
    };
    trunk.factor = readingFactor(request, trunk, bit);
    return trunk;
  });
}

/** Visits every assignment of one trunk. */
export function enumerate(trunk: OracleTrunk, visit: (assignment: Assignment) => void): void {
  const { nodes, feeder } = trunk;
  const count = nodes.length;
  const below = nodes.map((_, n) => feeder.flatMap((f, child) => (f === n ? [child] : [])));
  const downOrder: number[] = [];
  const first = feeder.flatMap((f, n) => (f === -1 ? [n] : []));
  for (let queue = first; queue.length > 0; queue = queue.flatMap((n) => below[n]!))
    downOrder.push(...queue);
  const upOrder = [...downOrder].reverse();
  const now: Assignment = {
    prior: 1,
    powerless: false,
    port: 'ok',
    kinds: new Int32Array(count),
    stations: new Int32Array(count),
    views: new Int32Array(count),
    feeds: new Int32Array(count),
  };
  const tops = new Int32Array(count);
  const settle = (prior: number) => {
    for (const n of upOrder) {
      const [station] = trunk.stationModes[n]![now.stations[n]!]!;
      let view = station === 'short-supply' ? bit('supply') : 0;
      for (const child of below[n]!) view |= tops[child]!;
      now.views[n] = view;
      tops[n] = trunk.spanKinds[n]![now.kinds[n]!]!.up[(view & 1) | ((view & 12) >> 1)]!;
    }
    let seen = 0;
    for (const n of first) seen |= tops[n]!;
    for (const [port, chance] of Object.entries(trunk.port)) {
      if (chance === 0) continue;
      for (const powerless of trunk.losesPower ? [false, true] : [false]) {
        const output = port === 'ok' && !powerless ? ALL : ALL & ~bit('supply');
        const start = output & ~seen;
        for (const n of downOrder) {
          const feed = feeder[n]! < 0 ? start : now.feeds[feeder[n]!]!;
          now.feeds[n] = trunk.spanKinds[n]![now.kinds[n]!]!.down[feed]!;
        }
        now.port = port;
        now.powerless = powerless;
        now.prior = prior * chance;
        if (trunk.factor) now.prior *= trunk.factor(now);
        visit(now);
      }
    }
  };
  const assign = (n: number, prior: number) => {
    if (n === count) return settle(prior);
    trunk.spanKinds[n]!.forEach((kind, k) => {
      now.kinds[n] = k;
      trunk.stationModes[n]!.forEach(([, chance], s) => {
        now.stations[n] = s;
        assign(n + 1, prior * kind.chance * chance);
      });
    });
  };
  assign(0, 1);
}

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
