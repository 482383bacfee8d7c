// The slow oracle: adds up EVERY assignment of component modes, straight from the fault model's sections 2 to 4. It shares
// no code and no table with the locator. Trunks of up to three nodes; larger rate tables only with fewer nodes.

import {
  ALL,
  bit,
  downThrough,
  ORACLE_RATES,
  type OracleExpectation,
  type OracleRequest,
  priors,
  type Rates,
  upThrough,
} from './enumeration-tables.js';
import { readingFactor } from './readings-oracle.js';

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
