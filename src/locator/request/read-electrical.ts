import type { JsonReader } from './json-reader.js';
import {
  MAX_CELSIUS,
  MAX_CORE_OHMS_PER_KM,
  MAX_SOURCE_OHMS,
  MAX_SOURCE_VOLTS,
  MAX_STATION_AMPS,
  MIN_CELSIUS,
  MIN_CORE_OHMS_PER_KM,
  MIN_SOURCE_VOLTS,
} from './limits.js';
import type { Electrical } from './locate-request.js';

const FIGURES = {
  sourceVolts: [MIN_SOURCE_VOLTS, MAX_SOURCE_VOLTS],
  sourceOhms: [0, MAX_SOURCE_OHMS],
  stationAmps: [0, MAX_STATION_AMPS],
  coreOhmsPerKm: [MIN_CORE_OHMS_PER_KM, MAX_CORE_OHMS_PER_KM],
  celsius: [MIN_CELSIUS, MAX_CELSIUS],
} as const satisfies Record<keyof Electrical, readonly [number, number]>;

/** The supply of the wire form; whoever left out the temperature means that of the tables. */
export function readElectrical(
  reader: JsonReader,
  value: unknown,
): Required<Electrical> | undefined {
  if (value === undefined) return undefined;
  const fields = reader.object(value, '/electrical', Object.keys(FIGURES));
  if (!fields) return undefined;
  const figure = (name: keyof Electrical) => {
    const [least, most] = FIGURES[name];
    return reader.number(fields[name], `/electrical/${name}`, least, most);
  };
  const sourceVolts = figure('sourceVolts');
  const sourceOhms = figure('sourceOhms');
  const stationAmps = figure('stationAmps');
  const coreOhmsPerKm = figure('coreOhmsPerKm');
  const celsius = fields.celsius === undefined ? 20 : figure('celsius');
  if (sourceVolts === undefined || sourceOhms === undefined || stationAmps === undefined)
    return undefined;
  if (coreOhmsPerKm === undefined || celsius === undefined) return undefined;
  return { sourceVolts, sourceOhms, stationAmps, coreOhmsPerKm, celsius };
}
