import { INFORMANT_KINDS, type InformantKind } from '../../plan/error-rates.js';
import { SEEN, SPAN_PARTS } from '../../plan/look-errors.js';
import type { PlanTables } from '../../plan/plan-tables.js';
import type { DrawingCheck } from './drawing-check.js';
import type { JsonReader } from './json-reader.js';
import { MAX_LOOKS } from './limits.js';
import type { RequestLook } from './locate-request.js';

type LookedAt = RequestLook['place'];

const PLACE_FIELDS: Record<LookedAt['kind'], readonly string[]> = {
  span: ['kind', 'trunk', 'from', 'to'],
  station: ['kind', 'trunk', 'node'],
  port: ['kind', 'trunk'],
  'head-end': ['kind'],
};
const KINDS = ['span', 'station', 'port', 'head-end'] as const satisfies LookedAt['kind'][];

/** What one can look at in each kind of place. */
const partsOf = ({ stationModes, portModes, headEndModes }: PlanTables) =>
  ({
    span: SPAN_PARTS,
    station: ['unit', ...stationModes],
    port: portModes,
    'head-end': headEndModes,
  }) as const;

const LOOK_FIELDS = ['place', 'part', 'group', 'seen', 'informant'];
const DEFAULT_INFORMANT: { kind: InformantKind } = { kind: 'technician' };

/** Looks of the wire form, one after the other, and what is wrong with each. */
class LookReader {
  private readonly parts: ReturnType<typeof partsOf>;

  constructor(
    private readonly reader: JsonReader,
    private readonly check: DrawingCheck | undefined,
    private readonly groups: ReadonlySet<string>,
  ) {
    this.parts = partsOf(reader.plan);
  }

  read(value: unknown, at: string): RequestLook | undefined {
    const fields = this.reader.object(value, at, LOOK_FIELDS);
    if (!fields) return undefined;
    const place = this.place(fields.place, `${at}/place`);
    const seen = this.reader.oneOf(fields.seen, `${at}/seen`, SEEN);
    const informant = this.informant(fields.informant, `${at}/informant`);
    const part = place && this.reader.oneOf(fields.part, `${at}/part`, this.parts[place.kind]);
    if (!place || part === undefined || !seen || !informant) return undefined;
    const group = this.group(fields.group, at, part);
    // A part was taken from its place's own list.
    return { place, part, seen, informant, ...(group !== undefined && { group }) } as RequestLook;
  }

  private place(value: unknown, at: string): LookedAt | undefined {
    const known = [...new Set(Object.values(PLACE_FIELDS).flat())];
    const fields = this.reader.object(value, at, known);
    const kind = fields && this.reader.oneOf(fields.kind, `${at}/kind`, KINDS);
    if (!kind) return undefined;
    for (const field of Object.keys(fields))
      if (known.includes(field) && !PLACE_FIELDS[kind].includes(field))
        this.reader.error(`${at}/${field}`, `is no field of a place of kind ${kind}`);
    if (kind === 'head-end') return { kind };
    const trunk = this.reader.id(fields.trunk, `${at}/trunk`);
    if (kind === 'span') return this.span(fields, at, trunk);
    if (kind === 'station') return this.station(fields, at, trunk);
    if (trunk === undefined) return undefined;
    this.check?.checkTrunk(at, trunk);
    return { kind, trunk };
  }

  private span(
    fields: Record<string, unknown>,
    at: string,
    trunk: string | undefined,
  ): LookedAt | undefined {
    const to = this.reader.id(fields.to, `${at}/to`);
    const from = fields.from === null ? null : this.reader.id(fields.from, `${at}/from`);
    if (trunk === undefined || to === undefined || from === undefined) return undefined;
    this.check?.checkSpan(at, trunk, from, to);
    return { kind: 'span', trunk, from, to };
  }

  private station(
    fields: Record<string, unknown>,
    at: string,
    trunk: string | undefined,
  ): LookedAt | undefined {
    const node = this.reader.id(fields.node, `${at}/node`);
    if (trunk === undefined || node === undefined) return undefined;
    this.check?.checkStation(at, trunk, node);
    return { kind: 'station', trunk, node };
  }

  private informant(value: unknown, at: string): { kind: InformantKind } | undefined {
    if (value === undefined) return DEFAULT_INFORMANT;
    const fields = this.reader.object(value, at, ['kind']);
    const kind = fields && this.reader.oneOf(fields.kind, `${at}/kind`, INFORMANT_KINDS);
    return kind && { kind };
  }

  private group(value: unknown, at: string, part: string): string | undefined {
    const isOfGroup = this.reader.plan.groupModes.some((mode) => mode === part);
    if (value !== undefined && !isOfGroup)
      return this.reader.error(`${at}/group`, `"${part}" is not of a group`);
    if (!isOfGroup) return undefined;
    const group = this.reader.id(value, `${at}/group`);
    if (group !== undefined && this.check && !this.groups.has(group))
      this.reader.error(`${at}/group`, `"${group}" is not a group of this request`);
    return group;
  }
}

export function readLooks(
  reader: JsonReader,
  value: unknown,
  check: DrawingCheck | undefined,
  groups: ReadonlySet<string>,
): RequestLook[] {
  if (value === undefined) return [];
  const list = reader.array(value, '/looks', MAX_LOOKS) ?? [];
  const one = new LookReader(reader, check, groups);
  return list.flatMap((item, l) => one.read(item, `/looks/${l}`) ?? []);
}
