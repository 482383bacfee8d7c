// Every assignment of modes of one trunk, and what travels on it then.
import { type ReadingFactors, readingFactors } from '../readings-oracle.js';
import { afterLooks, looksAt, priors } from './mode-chances.js';
import type { OracleExpectation, OracleRequest, Rates } from './request.js';
import { type SpanKind, spanKinds, viewIndex } from './span-kinds.js';
import { ALL, bit, ORACLE_RATES } from './tables.js';

/** One assignment of a trunk, as the visitor sees it: arrays are reused between visits. */
export interface Assignment {
  /** P(modes and looks), and P(readings | modes). Not of the head-end. */
  prior: number;
  port: string;
  /** Whether the head-end is in `power`, which takes the supply of every trunk: each assignment is visited for both. */
  powerless: boolean;
  kinds: Int32Array;
  stations: Int32Array;
  views: Int32Array;
  /** With the trunk whole. */
  feeds: Int32Array;
  /** The same while the cables that leave a node are disconnected there, in the order of OracleTrunk.cuts. */
  cutFeeds: Int32Array[];
}

export interface OracleTrunk {
  id: string;
  nodes: OracleRequest['trunks'][number]['nodes'];
  feeder: number[];
  spanKinds: SpanKind[][];
  stationModes: [string, number][][];
  port: Rates;
  /** Nodes at which the cable was disconnected for some observation. */
  cuts: number[];
  /** Whether the head-end can be in `power`. */
  losesPower: boolean;
  /** P(readings | assignment); left out without any. */
  readings?: ReadingFactors;
}

const positive = (chances: Rates) => Object.entries(chances).filter(([, chance]) => chance > 0);

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
        const seen = (part: string, chances: Rates) =>
          afterLooks(
            chances,
            looksAt(
              request,
              ({ place, part: looked }) =>
                place.kind === 'span' &&
                place.trunk === id &&
                place.to === node.id &&
                looked === part,
            ),
          );
        const junction = priors(rates.junction, 1, t);
        const cable = priors(rates.cablePerMetre, node.cableMetres, t);
        return spanKinds(
          seen('junction-out', mine ? priors(mine.junctionOut, 1, 1) : junction),
          seen('cable', mine ? priors(mine.cable, 1, 1) : cable),
          seen('junction-in', mine ? priors(mine.junctionIn, 1, 1) : junction),
          inDetail,
        );
      }),
      stationModes: nodes.map((node) => {
        if (node.kind === 'junction-box' || node.isOut) return [['ok', 1]];
        const mine = ownNode(node.id);
        const chances = mine
          ? priors(mine.station, 1, 1)
          : priors(rates.station, 1, years(node.exposureDays ?? request.exposureDays));
        const looks = looksAt(
          request,
          ({ place }) => place.kind === 'station' && place.trunk === id && place.node === node.id,
        );
        return positive(afterLooks(chances, looks));
      }),
      port: afterLooks(
        own ? priors(own.port, 1, 1) : priors(rates.port, 1, years(request.exposureDays)),
        looksAt(request, ({ place }) => place.kind === 'port' && place.trunk === id),
      ),
      losesPower: ((expected ?? rates).headEnd.power ?? 0) > 0,
      cuts: [
        ...new Set(
          (request.observations ?? []).flatMap(({ trunk, disconnectedBelow: at }) =>
            trunk === id && at !== undefined ? [nodes.findIndex((node) => node.id === at)] : [],
          ),
        ),
      ],
    };
    trunk.readings = readingFactors(request, trunk, bit);
    return trunk;
  });
}

/** The nodes from the port down, feeders before what they feed. */
export function downOrderOf(feeder: readonly number[]): number[] {
  const order: number[] = [];
  const below = (n: number) => feeder.flatMap((f, child) => (f === n ? [child] : []));
  for (let queue = below(-1); queue.length > 0; queue = queue.flatMap(below)) order.push(...queue);
  return order;
}

/** P(readings | assignment) is the product of two parts. */
const partOf = ({ readings }: OracleTrunk, part: keyof ReadingFactors, now: Assignment) =>
  readings === undefined ? 1 : readings[part](now);

/** Visits every assignment of one trunk, with the head-end's power and without. */
export function enumerate(trunk: OracleTrunk, visit: (assignment: Assignment) => void): void {
  const { feeder, cuts } = trunk;
  const count = feeder.length;
  const downOrder = downOrderOf(feeder);
  const ints = () => new Int32Array(count);
  const now: Assignment = {
    prior: 1,
    port: 'ok',
    powerless: false,
    kinds: ints(),
    stations: ints(),
    views: ints(),
    feeds: ints(),
    cutFeeds: cuts.map(ints),
  };
  const scratch = ints();
  const ports = positive(trunk.port);
  const powers = trunk.losesPower ? [false, true] : [false];
  const shorts = trunk.stationModes.map((modes) =>
    modes.map(([mode]) => (mode === 'short-supply' ? bit('supply') : 0)),
  );
  const ups = trunk.spanKinds.map((kinds) => kinds.map(({ up }) => up));
  const downs = trunk.spanKinds.map((kinds) => kinds.map(({ down }) => down));
  /** What is seen from the port, the view at every node written into `views`. */
  const lookDown = (views: Int32Array, cut: number) => {
    for (let n = 0; n < count; n++) views[n] = shorts[n]![now.stations[n]!]!;
    let seen = 0;
    for (let i = count - 1; i >= 0; i--) {
      const n = downOrder[i]!;
      const above = feeder[n]!;
      const top = ups[n]![now.kinds[n]!]![viewIndex(views[n]!)]!;
      if (above < 0) seen |= top;
      else if (above !== cut) views[above]! |= top;
    }
    return seen;
  };
  const feedDown = (feeds: Int32Array, start: number, cut: number) => {
    for (let i = 0; i < count; i++) {
      const n = downOrder[i]!;
      const above = feeder[n]!;
      const feed = above < 0 ? start : above === cut ? 0 : feeds[above]!;
      feeds[n] = downs[n]![now.kinds[n]!]![feed]!;
    }
  };
  const seenCut = cuts.map(() => 0);
  const settle = (prior: number) => {
    const seen = lookDown(now.views, -1);
    for (let c = 0; c < cuts.length; c++) seenCut[c] = lookDown(scratch, cuts[c]!);
    const ofModes = partOf(trunk, 'ofModes', now);
    for (const [port, chance] of ports)
      for (const powerless of powers) {
        const start = powerless || port !== 'ok' ? ALL & ~bit('supply') : ALL;
        feedDown(now.feeds, start & ~seen, -1);
        for (let c = 0; c < cuts.length; c++)
          feedDown(now.cutFeeds[c]!, start & ~seenCut[c]!, cuts[c]!);
        now.port = port;
        now.powerless = powerless;
        now.prior = prior * chance;
        now.prior *= ofModes * partOf(trunk, 'ofFeeds', now);
        visit(now);
      }
  };
  const assign = (n: number, prior: number) => {
    if (n === count) {
      settle(prior);
      return;
    }
    trunk.spanKinds[n]!.forEach(({ chance: kindChance }, k) => {
      now.kinds[n] = k;
      trunk.stationModes[n]!.forEach(([, chance], s) => {
        now.stations[n] = s;
        assign(n + 1, prior * kindChance * chance);
      });
    });
  };
  assign(0, 1);
}
