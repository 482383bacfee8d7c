import { FUNCTIONS } from '../../plan/functions.js';
import { HEAD_END_MODES, PORT_MODES, SPAN_MODES, STATION_MODES } from '../../plan/modes.js';
import type { RateTables } from '../../plan/rates.js';
import { InvalidLocateRequest } from './errors.js';
import { JsonReader } from './json-reader.js';
import { MAX_EXPLANATIONS, MAX_EXPOSURE_DAYS, MAX_RATE_PER_YEAR } from './limits.js';
import type { LocateRequest, Unmentioned } from './locate-request.js';
import { readElectrical } from './read-electrical.js';
import { readObservations } from './read-observations.js';
import { readReadings } from './read-readings.js';
import { readTrunks } from './read-trunks.js';

const FIELDS = [
  'trunks',
  'exposureDays',
  'rates',
  'observations',
  'unmentioned',
  'electrical',
  'readings',
  'explanations',
];

const RATE_GROUPS: Record<keyof RateTables, readonly string[]> = {
  headEnd: HEAD_END_MODES,
  port: PORT_MODES,
  station: STATION_MODES,
  junction: SPAN_MODES,
  cablePerMetre: SPAN_MODES,
};

function readRates(reader: JsonReader, value: unknown): Partial<RateTables> | undefined {
  if (value === undefined) return undefined;
  const groups = reader.object(value, '/rates', Object.keys(RATE_GROUPS));
  const read: Record<string, Record<string, number>> = {};
  for (const [group, modes] of Object.entries(RATE_GROUPS)) {
    if (groups?.[group] === undefined) continue;
    const table = reader.object(groups[group], `/rates/${group}`, modes) ?? {};
    read[group] = {};
    for (const mode of modes) {
      if (table[mode] === undefined) continue;
      const at = `/rates/${group}/${mode}`;
      read[group][mode] = reader.number(table[mode], at, 0, MAX_RATE_PER_YEAR) ?? 0;
    }
  }
  return read;
}

function readUnmentioned(reader: JsonReader, value: unknown): Unmentioned | undefined {
  if (value === undefined) return undefined;
  const at = '/unmentioned';
  const fields = reader.object(value, at, ['reportRate', 'functions']);
  if (!fields) return undefined;
  const reportRate = reader.number(fields.reportRate, `${at}/reportRate`, 0, 1);
  const list = reader.array(fields.functions, `${at}/functions`, FUNCTIONS.length) ?? [];
  const functions = list.flatMap((item, f) => {
    const name = reader.oneOf(item, `${at}/functions/${f}`, FUNCTIONS);
    if (name && list.indexOf(name) < f)
      reader.error(`${at}/functions/${f}`, `"${name}" is already listed`);
    return name ?? [];
  });
  return reportRate === undefined ? undefined : { reportRate, functions };
}

/**
 * Checks a request in the wire form and returns it typed.
 * @throws InvalidLocateRequest with every error found, each by JSON pointer and reason.
 */
export function readRequest(value: unknown): LocateRequest {
  const reader = new JsonReader();
  const fields = reader.object(value, '', FIELDS) ?? {};
  if (reader.errors.some((error) => error.pointer === ''))
    throw new InvalidLocateRequest(reader.errors);
  const trunks = readTrunks(reader, fields.trunks);
  const isDrawn = reader.errors.length === 0;
  const exposureDays = reader.number(fields.exposureDays, '/exposureDays', 0, MAX_EXPOSURE_DAYS);
  const rates = readRates(reader, fields.rates);
  const observations = readObservations(reader, fields.observations, trunks);
  const unmentioned = readUnmentioned(reader, fields.unmentioned);
  const electrical = readElectrical(reader, fields.electrical);
  const readings = readReadings(reader, fields.readings, {
    trunks: isDrawn ? trunks : undefined,
    electrical,
  });
  const explanations =
    fields.explanations === undefined
      ? undefined
      : reader.integer(fields.explanations, '/explanations', 0, MAX_EXPLANATIONS);
  if (reader.errors.length > 0 || !trunks || exposureDays === undefined)
    throw new InvalidLocateRequest(reader.errors);
  return {
    trunks,
    exposureDays,
    rates,
    observations,
    unmentioned,
    electrical,
    readings,
    explanations,
  };
}
