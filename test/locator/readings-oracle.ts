// What readings make of one assignment of modes, straight from the fault model's section 6 and the wire form, without any
// code of the locator: the ladder by adding up drops, a cable's mean density by Simpson's rule, the nearest visible short
// by comparing all that are seen.
import type { OracleRequest } from './oracle/request.js';
import type { Assignment, OracleTrunk } from './oracle/trunks.js';

export type OracleReading =
  | { kind: 'supply-volts'; trunk: string; node: string; volts: number; uncertaintyVolts: number }
  | { kind: 'loop-ohms'; trunk: string; core: string; ohms: number; uncertaintyOhms: number }
  | {
      kind: 'continuity';
      trunk: string;
      from?: string | null;
      to: string;
      cores: string[];
      passes: boolean;
    };

export interface OracleElectrical {
  sourceVolts: number;
  sourceOhms: number;
  stationAmps: number;
  coreOhmsPerKm: number;
  celsius?: number;
}

type Factor = (assignment: Assignment) => number;
type Drawn = Omit<OracleTrunk, 'readings'>;

const normal = (x: number, mean: number, deviation: number) =>
  Math.exp(-(((x - mean) / deviation) ** 2) / 2) / Math.sqrt(2 * Math.PI * deviation ** 2);

const metreOhms = ({ coreOhmsPerKm, celsius = 20 }: OracleElectrical) =>
  ((2 * coreOhmsPerKm) / 1000) * ((234.5 + celsius) / 254.5);

/** The node and all that feed it, nearest to the port last. */
function upwards({ feeder }: Drawn, from: number): number[] {
  return from < 0 ? [] : [from, ...upwards({ feeder } as Drawn, feeder[from]!)];
}

const metresTo = (trunk: Drawn, n: number) =>
  [...upwards(trunk, n)].reverse().reduce((sum, at) => sum + trunk.nodes[at]!.cableMetres, 0);

/** V = V0 - everything's drop: each station's current flows through the source and through its own path. */
function nominal(trunk: Drawn, supply: OracleElectrical, n: number): number {
  const mine = upwards(trunk, n);
  return trunk.nodes.reduce((volts, node, other) => {
    if (node.kind !== 'station') return volts;
    const shared = upwards(trunk, other).filter((at) => mine.includes(at));
    const metres = shared.reduce((sum, at) => sum + trunk.nodes[at]!.cableMetres, 0);
    return volts - supply.stationAmps * (supply.sourceOhms + metres * metreOhms(supply));
  }, supply.sourceVolts);
}

function voltsFactor(
  trunk: Drawn,
  supply: OracleElectrical,
  reading: Extract<OracleReading, { kind: 'supply-volts' }>,
  bit: (core: string) => number,
): Factor {
  const n = trunk.nodes.findIndex(({ id }) => id === reading.node);
  const [v, s, v0, vn] = [
    reading.volts,
    reading.uncertaintyVolts,
    supply.sourceVolts,
    nominal(trunk, supply, n),
  ];
  const table = Array.from({ length: 32 }, (_, feed) => {
    const arrives = feed & bit('supply') && feed & bit('return');
    const f = !arrives
      ? normal(v, 0, Math.sqrt(s ** 2 + 0.1 ** 2))
      : feed & 16
        ? Number(v >= 0 && v <= vn) / vn
        : normal(v, vn, Math.sqrt(s ** 2 + (0.02 * v0) ** 2));
    return 0.99 * f + 0.01 / (1.5 * v0);
  });
  return ({ feeds }) => table[feeds[n]!]!;
}

const stops = (mode: string, cores: string[]) =>
  mode === 'parted' || cores.some((core) => mode === `open-${core}`);

function continuityFactor(
  trunk: Drawn,
  reading: Extract<OracleReading, { kind: 'continuity' }>,
): Factor {
  const at = (id: string | null | undefined) => trunk.nodes.findIndex((node) => node.id === id);
  const above = upwards(trunk, at(reading.from));
  const path = upwards(trunk, at(reading.to)).filter((n) => !above.includes(n));
  return ({ kinds }) => {
    const isBroken = path.some((n) =>
      trunk.spanKinds[n]![kinds[n]!]!.detail.some((mode) => stops(mode, reading.cores)),
    );
    return isBroken === reading.passes ? 0.005 : 0.995;
  };
}

interface Seen {
  middle: number;
  length: number;
  likelihood: number;
}

/** Mean over a cable by Simpson's rule; at a point the value. */
function meanOver(low: number, high: number, f: (x: number) => number): number {
  if (high === low) return f(low);
  const panels = 4000;
  let sum = 0;
  for (let i = 0; i <= panels; i++) {
    const weight = i === 0 || i === panels ? 1 : i % 2 === 1 ? 4 : 2;
    sum += weight * f(low + (i * (high - low)) / panels);
  }
  return sum / (3 * panels);
}

function loopFactor(
  trunk: Drawn,
  supply: OracleElectrical,
  readings: readonly Extract<OracleReading, { kind: 'loop-ohms' }>[],
): Factor {
  const { core } = readings[0]!;
  const range =
    1.5 * metreOhms(supply) * Math.max(...trunk.nodes.map((_, n) => metresTo(trunk, n)));
  const at = (metres: number) =>
    readings.reduce((product, { ohms, uncertaintyOhms }) => {
      const density = normal(ohms, metres * metreOhms(supply), uncertaintyOhms);
      return product * (0.99 * density + 0.01 / range);
    }, 1);
  const place = (low: number, high: number): Seen => ({
    middle: low + (high - low) / 2,
    length: high - low,
    likelihood: meanOver(low, high, at),
  });
  const places = trunk.nodes.map((_, n) => {
    const low = trunk.feeder[n]! < 0 ? 0 : metresTo(trunk, trunk.feeder[n]!);
    const high = metresTo(trunk, n);
    return [place(low, low), place(low, high), place(high, high)];
  });
  const hides = (mode: string) => stops(mode, [core, 'return']);
  /** Everything of this core that is seen from the top of the span into a node, the first met on each path. */
  const seenFrom = (n: number, assignment: Assignment): Seen[] => {
    const { detail } = trunk.spanKinds[n]![assignment.kinds[n]!]!;
    for (const [part, mode] of detail.entries()) {
      if (mode === `short-${core}`) return [places[n]![part]!];
      if (hides(mode)) return [];
    }
    const [station] = trunk.stationModes[n]![assignment.stations[n]!]!;
    if (core === 'supply' && station === 'short-supply') return [places[n]![2]!];
    return trunk.feeder.flatMap((f, child) => (f === n ? seenFrom(child, assignment) : []));
  };
  const nothing = (0.01 / range) ** readings.length;
  return (assignment) => {
    const seen = trunk.feeder.flatMap((f, n) => (f < 0 ? seenFrom(n, assignment) : []));
    const [nearest] = seen.sort((a, b) => a.middle - b.middle || a.length - b.length);
    return nearest?.likelihood ?? nothing;
  };
}

/** P(the readings of a trunk | an assignment), in two parts: what is the same with any port and head-end comes first. */
export interface ReadingFactors {
  ofModes: Factor;
  ofFeeds: Factor;
}

export function readingFactors(
  request: OracleRequest,
  trunk: Drawn,
  bit: (core: string) => number,
): ReadingFactors | undefined {
  const readings = (request.readings ?? []).filter((reading) => reading.trunk === trunk.id);
  if (readings.length === 0) return undefined;
  const supply = request.electrical!;
  const loops = ['supply', 'speech', 'select'].flatMap((core) => {
    const alike = readings.flatMap((r) => (r.kind === 'loop-ohms' && r.core === core ? [r] : []));
    return alike.length > 0 ? [alike] : [];
  });
  const product =
    (factors: readonly Factor[]): Factor =>
    (assignment) =>
      factors.reduce((all, factor) => all * factor(assignment), 1);
  return {
    ofModes: product([
      ...readings.flatMap((reading) =>
        reading.kind === 'continuity' ? continuityFactor(trunk, reading) : [],
      ),
      ...loops.map((alike) => loopFactor(trunk, supply, alike)),
    ]),
    ofFeeds: product(
      readings.flatMap((reading) =>
        reading.kind === 'supply-volts' ? voltsFactor(trunk, supply, reading, bit) : [],
      ),
    ),
  };
}
