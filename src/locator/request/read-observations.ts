import { INFORMANT_KINDS, type InformantKind, OUTCOMES } from '../../plan/error-rates.js';
import { FUNCTIONS } from '../../plan/functions.js';
import type { JsonReader } from './json-reader.js';
import { MAX_OBSERVATIONS } from './limits.js';
import type { Informant, RequestObservation, RequestTrunk } from './locate-request.js';

/** Says, once for each list of trunks, whether a trunk and node exist, and what is there. */
export class DrawingIndex {
  private readonly trunks: Map<string, Map<string, RequestTrunk['nodes'][number]>>;
  constructor(trunks: readonly RequestTrunk[]) {
    this.trunks = new Map(
      trunks.map((trunk) => [trunk.id, new Map(trunk.nodes.map((node) => [node.id, node]))]),
    );
  }

  /** Reports an unknown trunk; else gives its nodes by id. */
  checkTrunk(
    reader: JsonReader,
    at: string,
    trunk: string,
  ): ReadonlyMap<string, RequestTrunk['nodes'][number]> | undefined {
    const nodes = this.trunks.get(trunk);
    if (!nodes) reader.error(`${at}/trunk`, `"${trunk}" is not a trunk of this request`);
    return nodes;
  }

  /** Reports what is unknown; a station is wanted where `stationsOnly`. */
  check(
    reader: JsonReader,
    at: string,
    place: { trunk: string; node: string; nodeField: string; stationsOnly: boolean },
  ): void {
    const nodes = this.checkTrunk(reader, at, place.trunk);
    if (!nodes) return;
    const node = nodes.get(place.node);
    if (!node)
      reader.error(`${at}/${place.nodeField}`, `"${place.node}" is not a node of this trunk`);
    else if (place.stationsOnly && node.kind !== 'station')
      reader.error(`${at}/${place.nodeField}`, `"${place.node}" is a junction box: no room there`);
  }
}

function readInformant(reader: JsonReader, value: unknown, at: string): Informant | undefined {
  if (value === undefined) return { kind: 'office' };
  const fields = reader.object(value, at, ['id', 'kind']);
  if (!fields) return undefined;
  const kind = reader.oneOf(fields.kind, `${at}/kind`, INFORMANT_KINDS);
  const id = fields.id === undefined ? undefined : reader.id(fields.id, `${at}/id`);
  return kind && { id, kind };
}

const OBSERVATION_FIELDS = ['trunk', 'node', 'function', 'outcome', 'informant'];

function readObservation(
  reader: JsonReader,
  value: unknown,
  at: string,
  drawing: DrawingIndex | undefined,
): RequestObservation | undefined {
  const fields = reader.object(value, at, OBSERVATION_FIELDS);
  if (!fields) return undefined;
  const trunk = reader.id(fields.trunk, `${at}/trunk`);
  const node = reader.id(fields.node, `${at}/node`);
  const name = reader.oneOf(fields.function, `${at}/function`, FUNCTIONS);
  const outcome = reader.oneOf(fields.outcome, `${at}/outcome`, OUTCOMES);
  const informant = readInformant(reader, fields.informant, `${at}/informant`);
  if (trunk !== undefined && node !== undefined)
    drawing?.check(reader, at, { trunk, node, nodeField: 'node', stationsOnly: true });
  if (trunk === undefined || node === undefined) return undefined;
  return name && outcome && informant && { trunk, node, function: name, outcome, informant };
}

/** Observations of the wire form; a person who is of two kinds at once is an error. */
export function readObservations(
  reader: JsonReader,
  value: unknown,
  trunks: readonly RequestTrunk[] | undefined,
): RequestObservation[] {
  if (value === undefined) return [];
  const drawing = trunks && new DrawingIndex(trunks);
  const list = reader.array(value, '/observations', MAX_OBSERVATIONS) ?? [];
  const kinds = new Map<string, InformantKind>();
  return list.flatMap((item, o) => {
    const at = `/observations/${o}`;
    const read = readObservation(reader, item, at, drawing);
    const { id, kind } = read?.informant ?? {};
    if (id !== undefined && kind) {
      const known = kinds.get(id) ?? kind;
      kinds.set(id, known);
      if (known !== kind)
        reader.error(`${at}/informant/kind`, `"${id}" is also given as ${known}: one id, one kind`);
    }
    return read ? [read] : [];
  });
}
