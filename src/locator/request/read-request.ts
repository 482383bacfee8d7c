import { DEFAULT_PLAN } from '../../plan/default-plan.js';
import type { Plan } from '../../plan/plan.js';
import { type PlanTables, tablesOf } from '../../plan/plan-tables.js';
import type { RateTables } from '../../plan/rates.js';
import { DrawingCheck } from './drawing-check.js';
import { InvalidLocateRequest } from './errors.js';
import { JsonReader } from './json-reader.js';
import {
  MAX_CHECKED_NODES,
  MAX_CHECKS,
  MAX_EXPLANATIONS,
  MAX_EXPOSURE_DAYS,
  MAX_RATE_PER_YEAR,
  MIN_FALSE_ALARM_RATIO,
} from './limits.js';
import {
  BEGUN_BY,
  type LocateRequest,
  type RequestTrunk,
  type Unmentioned,
} from './locate-request.js';
import { readElectrical } from './read-electrical.js';
import { readLooks } from './read-looks.js';
import { readObservations } from './read-observations.js';
import { readReadings } from './read-readings.js';
import { readGroups, readTrunks } from './read-trunks.js';

const FIELDS = [
  'trunks',
  'exposureDays',
  'rates',
  'observations',
  'looks',
  'begunBy',
  'falseAlarmRatio',
  'unmentioned',
  'electrical',
  'readings',
  'explanations',
  'checks',
];

function rateGroups(plan: PlanTables): Record<keyof RateTables, readonly string[]> {
  return {
    headEnd: plan.headEndModes,
    port: plan.portModes,
    station: plan.stationModes,
    junction: plan.spanModes,
    cablePerMetre: plan.spanModes,
  };
}

function readRates(reader: JsonReader, value: unknown): Partial<RateTables> | undefined {
  if (value === undefined) return undefined;
  const known = rateGroups(reader.plan);
  const groups = reader.object(value, '/rates', Object.keys(known));
  const read: Record<string, Record<string, number>> = {};
  for (const [group, modes] of Object.entries(known)) {
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
  const names = reader.plan.functions;
  const functions = reader.distinct(
    fields.functions,
    `${at}/functions`,
    names.length,
    (item, where) => reader.oneOf(item, where, names),
  );
  return reportRate === undefined ? undefined : { reportRate, functions };
}

/** Each is tried by sweeping the site again. */
function readChecks(
  reader: JsonReader,
  value: unknown,
  trunks: readonly RequestTrunk[] = [],
): number | undefined {
  if (value === undefined) return undefined;
  const checks = reader.integer(value, '/checks', 0, MAX_CHECKS);
  const nodes = trunks.reduce((sum, trunk) => sum + trunk.nodes.length, 0);
  if (checks !== undefined && checks > 0 && nodes > MAX_CHECKED_NODES)
    reader.error('/checks', `must be 0 for more than ${MAX_CHECKED_NODES} nodes`);
  return checks;
}

/**
 * Checks a request in the wire form and returns it typed.
 * @param plan the kind of system that it is about: which names it may use
 * @throws InvalidLocateRequest with every error found, each by JSON pointer and reason.
 * @throws InvalidPlan
 */
export function readRequest(value: unknown, plan: Plan = DEFAULT_PLAN): LocateRequest {
  const reader = new JsonReader(tablesOf(plan));
  const fields = reader.object(value, '', FIELDS) ?? {};
  if (reader.errors.some((error) => error.pointer === ''))
    throw new InvalidLocateRequest(reader.errors);
  const trunks = readTrunks(reader, fields.trunks);
  const isDrawn = reader.errors.length === 0;
  const exposureDays = reader.number(fields.exposureDays, '/exposureDays', 0, MAX_EXPOSURE_DAYS);
  const rates = readRates(reader, fields.rates);
  const groups = readGroups(reader, trunks);
  const check = trunks && new DrawingCheck(reader, trunks);
  const observations = readObservations(reader, fields.observations, check);
  const looks = readLooks(reader, fields.looks, check, groups);
  const begunBy =
    fields.begunBy === undefined ? undefined : reader.oneOf(fields.begunBy, '/begunBy', BEGUN_BY);
  const falseAlarmRatio =
    fields.falseAlarmRatio === undefined
      ? undefined
      : reader.number(fields.falseAlarmRatio, '/falseAlarmRatio', MIN_FALSE_ALARM_RATIO, 1);
  const unmentioned = readUnmentioned(reader, fields.unmentioned);
  const electrical = readElectrical(reader, fields.electrical);
  const readings = readReadings(reader, fields.readings, {
    check: isDrawn ? check : undefined,
    electrical,
  });
  const explanations =
    fields.explanations === undefined
      ? undefined
      : reader.integer(fields.explanations, '/explanations', 0, MAX_EXPLANATIONS);
  const checks = readChecks(reader, fields.checks, trunks);
  if (reader.errors.length > 0 || !trunks || exposureDays === undefined)
    throw new InvalidLocateRequest(reader.errors);
  return {
    trunks,
    exposureDays,
    rates,
    observations,
    looks,
    begunBy,
    falseAlarmRatio,
    unmentioned,
    electrical,
    readings,
    explanations,
    checks,
    ...(plan !== DEFAULT_PLAN && { plan }),
  };
}
