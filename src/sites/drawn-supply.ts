import type { Load, SupplyTrunk } from '../locator/electrical/index.js';
import type { Conductor, ConductorClass } from '../survey/index.js';
import type { NodeKind } from '../drawing/drawn-node.js';

/** One thing that is missing or too much: a JSON pointer and why. */
export interface WrongField {
  field: string;
  reason: string;
}

export interface AskedConductor {
  kind: Conductor['kind'];
  squareMillimetres?: number;
  conductorClass?: ConductorClass;
  gauge?: number;
  ohmsPerKm?: number;
  celsius?: number;
}

/** What its kind needs, and nothing else is read. */
export function readConductor(asked: AskedConductor): Conductor | WrongField {
  const { kind, squareMillimetres, conductorClass, gauge, ohmsPerKm, celsius } = asked;
  if (kind === 'awg') return gauge === undefined ? missing('gauge', kind) : { kind, gauge };
  if (kind === 'measured') {
    if (ohmsPerKm === undefined) return missing('ohmsPerKm', kind);
    return celsius === undefined ? missing('celsius', kind) : { kind, ohmsPerKm, celsius };
  }
  if (squareMillimetres === undefined) return missing('squareMillimetres', kind);
  if (conductorClass === undefined) return missing('conductorClass', kind);
  return { kind, squareMillimetres, conductorClass };
}

function missing(name: string, kind: string): WrongField {
  return { field: `/conductor/${name}`, reason: `is missing: a conductor of ${kind} has one` };
}

/** Either amps or watts, never both. */
export function readLoad(asked: {
  stationAmps?: number;
  stationWatts?: number;
}): Load | WrongField {
  const { stationAmps: amps, stationWatts: watts } = asked;
  if (amps !== undefined && watts !== undefined)
    return { field: '/stationWatts', reason: 'is one too many: amps are given already' };
  if (amps !== undefined) return { kind: 'amps', amps };
  if (watts !== undefined) return { kind: 'watts', watts };
  return {
    field: '/stationAmps',
    reason: 'is missing: say what a station draws, in amps or watts',
  };
}

export interface DrawnSpan {
  id: string;
  kind: NodeKind;
  /** Left out: the node before it. */
  fedFrom?: string | null;
  cableMetres: number;
}

/** The nodes as the electrical model takes them; or what is wrong with how they are fed. */
export function readNodes(
  drawn: readonly DrawnSpan[],
  load: Load,
): { nodes: SupplyTrunk['nodes'] } | { wrong: WrongField[] } {
  const at = new Map<string, number>();
  drawn.forEach(({ id }, n) => at.set(id, at.get(id) ?? n));
  const wrong: WrongField[] = [];
  const nodes = drawn.map(({ id, kind, fedFrom, cableMetres }, n) => {
    const feeder = fedFrom === undefined ? (drawn[n - 1]?.id ?? null) : fedFrom;
    if (at.get(id) !== n) wrong.push({ field: `/nodes/${n}/id`, reason: `"${id}" is there twice` });
    if (feeder !== null && !at.has(feeder))
      wrong.push({ field: `/nodes/${n}/fedFrom`, reason: `there is no node ${feeder}` });
    return {
      parent: feeder === null ? null : (at.get(feeder) ?? null),
      cableMetres,
      ...(kind === 'station' && { load }),
    };
  });
  return wrong.length > 0 ? { wrong } : { nodes };
}
