import type { Electrical } from '../locator/index.js';
import type { HeadEnd } from '../sites/as-built.js';

/** What the electrical model needs, or the fields of the record's head-end that do not say it. */
export type RecordedElectrical = { electrical: Electrical } | { missing: (keyof HeadEnd)[] };

/** The figures of the head-end's supply. */
export type SupplyFigures = Pick<HeadEnd, (typeof FIGURES)[number]>;

const FIGURES = ['supplyVolts', 'supplyOhms', 'stationAmps', 'coreOhmsPerKm'] as const;

/** The supply of a site as its record says; what a later version has added is taken where `drawn` has nothing. */
export function recordedElectrical(drawn: SupplyFigures, later: SupplyFigures): RecordedElectrical {
  const figures = Object.fromEntries(FIGURES.map((name) => [name, drawn[name] ?? later[name]]));
  const { supplyVolts, supplyOhms, stationAmps, coreOhmsPerKm } = figures as SupplyFigures;
  if (supplyVolts === null || supplyOhms === null || stationAmps === null || coreOhmsPerKm === null)
    return { missing: FIGURES.filter((name) => figures[name] === null) };
  const electrical = {
    sourceVolts: supplyVolts,
    sourceOhms: supplyOhms,
    stationAmps,
    coreOhmsPerKm,
  };
  return { electrical };
}
