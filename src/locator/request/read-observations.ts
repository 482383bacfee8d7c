import { INFORMANT_KINDS, type InformantKind, OUTCOMES } from '../../plan/error-rates.js';
import type { DrawingCheck } from './drawing-check.js';
import type { JsonReader } from './json-reader.js';
import {
  MAX_DISCONNECTIONS_OF_ONE_TRUNK,
  MAX_INFORMANT_LENGTH,
  MAX_OBSERVATIONS,
} from './limits.js';
import type { Informant, RequestObservation } from './locate-request.js';

function readInformant(reader: JsonReader, value: unknown, at: string): Informant | undefined {
  if (value === undefined) return { kind: 'office' };
  const fields = reader.object(value, at, ['id', 'kind']);
  if (!fields) return undefined;
  const kind = reader.oneOf(fields.kind, `${at}/kind`, INFORMANT_KINDS);
  const id =
    fields.id === undefined ? undefined : reader.id(fields.id, `${at}/id`, MAX_INFORMANT_LENGTH);
  return kind && { id, kind };
}

const OBSERVATION_FIELDS = [
  'trunk',
  'node',
  'function',
  'outcome',
  'informant',
  'disconnectedBelow',
];

function readObservation(
  reader: JsonReader,
  value: unknown,
  at: string,
  drawing: DrawingCheck | undefined,
): RequestObservation | undefined {
  const fields = reader.object(value, at, OBSERVATION_FIELDS);
  if (!fields) return undefined;
  const trunk = reader.id(fields.trunk, `${at}/trunk`);
  const node = reader.id(fields.node, `${at}/node`);
  const name = reader.oneOf(fields.function, `${at}/function`, reader.plan.functions);
  const outcome = reader.oneOf(fields.outcome, `${at}/outcome`, OUTCOMES);
  const informant = readInformant(reader, fields.informant, `${at}/informant`);
  const disconnectedBelow =
    fields.disconnectedBelow === undefined
      ? undefined
      : reader.id(fields.disconnectedBelow, `${at}/disconnectedBelow`);
  if (trunk === undefined || node === undefined) return undefined;
  drawing?.checkTold(at, { trunk, node, func: name, disconnectedBelow });
  if (!name || !outcome || !informant) return undefined;
  const read = { trunk, node, function: name, outcome, informant };
  return disconnectedBelow === undefined ? read : { ...read, disconnectedBelow };
}

/** Reports the first observation with which a trunk has been disconnected at too many nodes. */
function checkDisconnections(reader: JsonReader, observations: readonly RequestObservation[]) {
  const cuts = new Map<string, Set<string>>();
  observations.forEach(({ trunk, disconnectedBelow }, o) => {
    if (disconnectedBelow === undefined) return;
    const known = cuts.get(trunk) ?? new Set();
    if (known.size === MAX_DISCONNECTIONS_OF_ONE_TRUNK && !known.has(disconnectedBelow))
      reader.error(
        `/observations/${o}/disconnectedBelow`,
        `at most ${MAX_DISCONNECTIONS_OF_ONE_TRUNK} nodes of one trunk are allowed`,
      );
    else cuts.set(trunk, known.add(disconnectedBelow));
  });
}

/** Observations of the wire form; a person who is of two kinds at once is an error. */
export function readObservations(
  reader: JsonReader,
  value: unknown,
  drawing: DrawingCheck | undefined,
): RequestObservation[] {
  if (value === undefined) return [];
  const list = reader.array(value, '/observations', MAX_OBSERVATIONS) ?? [];
  const kinds = new Map<string, InformantKind>();
  const all = list.map((item, o) => {
    const at = `/observations/${o}`;
    const read = readObservation(reader, item, at, drawing);
    const { id, kind } = read?.informant ?? {};
    if (id !== undefined && kind) {
      const known = kinds.get(id) ?? kind;
      kinds.set(id, known);
      if (known !== kind)
        reader.error(`${at}/informant/kind`, `"${id}" is also given as ${known}: one id, one kind`);
    }
    return read;
  });
  const read = all.filter((one) => one !== undefined);
  if (read.length === all.length) checkDisconnections(reader, read);
  return read;
}
