import type { Place } from '../drawing/drawn-node.js';
import type { InformantKind } from '../plan/error-rates.js';
import { type SEEN, SPAN_PARTS } from '../plan/look-errors.js';
import { GROUP_MODES, HEAD_END_MODES, PORT_MODES, STATION_MODES } from '../plan/modes.js';
import type { FieldError } from '../shared/domain-error.js';
import { placeOn, type SentPlace } from '../sites/check-place.js';
import { type DrawnRecord, findNode } from '../sites/drawing.js';
import type { LeftOut } from '../words/index.js';

/** A part that somebody looked at, and how they found it. */
export interface SeenPart {
  place: Place;
  /** By the names of the fault model; see `PARTS`. */
  part: string;
  /** Of a setting that the head-end has for each group of stations; else null. */
  group: string | null;
  seen: (typeof SEEN)[number];
}

/** What one can look at in each kind of place. */
const PARTS: Readonly<Record<Place['kind'], readonly string[]>> = {
  span: SPAN_PARTS,
  station: ['unit', ...STATION_MODES],
  port: PORT_MODES,
  'head-end': HEAD_END_MODES,
};

/** What somebody can look at who opens nothing: of a station the unit from outside, its volume and its settings. */
const PARTS_OF_OFFICE: Readonly<Record<Place['kind'], readonly string[]>> = {
  span: [],
  station: ['unit', 'volume-down', 'bell-setting', 'announcement-setting', 'music-setting'],
  port: [],
  'head-end': HEAD_END_MODES,
};

export function isOfGroup(part: string): boolean {
  return GROUP_MODES.some((mode) => mode === part);
}

interface SentLook {
  place: SentPlace;
  part: string;
  group?: string | null;
  seen: SeenPart['seen'];
}

/** A look as it is kept, or all that is wrong with it, named under `field`. */
export function checkLook(
  sent: SentLook,
  by: InformantKind,
  drawing: DrawnRecord,
  field: string,
): { look: SeenPart } | { errors: FieldError[] } {
  const { part, seen } = sent;
  const found = placeOn(drawing, sent.place, `${field}/place`);
  const errors = [...wrongPart(sent.place.kind, part, by), ...wrongGroup(sent, drawing)].map(
    (error) => ({ ...error, field: `${field}${error.field}` }),
  );
  if ('error' in found) return { errors: [found.error, ...errors] };
  if (errors.length > 0) return { errors };
  return { look: { place: found.place, part, group: sent.group ?? null, seen } };
}

function wrongPart(kind: Place['kind'], part: string, by: InformantKind): FieldError[] {
  const parts = PARTS[kind];
  const wrong = (reason: string) => [{ field: '/part', reason }];
  if (!parts.includes(part)) return wrong(`a ${kind} has: ${parts.join(', ')}`);
  const ofOffice = PARTS_OF_OFFICE[kind];
  if (by === 'technician' || ofOffice.includes(part)) return [];
  if (ofOffice.length === 0) return wrong(`a ${kind} is for a technician to open and look at`);
  return wrong(`is for a technician; the office can look at: ${ofOffice.join(', ')}`);
}

function wrongGroup({ part, group }: SentLook, { trunks }: DrawnRecord): FieldError[] {
  const wrong = (reason: string) => [{ field: '/group', reason }];
  if (!isOfGroup(part))
    return group == null ? [] : wrong(`belongs to: ${GROUP_MODES.join(', ')} of the head-end`);
  if (group == null) return wrong(`is missing: ${part} is set for each group of stations`);
  const isNamed = trunks.some(({ nodes }) =>
    nodes.some(({ groups = [] }) => groups.includes(group)),
  );
  return isNamed ? [] : wrong(`no station of the drawing is in the group ${group}`);
}

/** Why a look says nothing on a drawing; null where it does. `groups`: those that are weighed. */
export function saysNothingOn(
  { place, part, group }: SeenPart,
  drawing: DrawnRecord,
  groups: ReadonlySet<string>,
): LeftOut | null {
  const found = placeOn(drawing, place, '');
  if ('error' in found) return { kind: 'no-such-place' };
  if (place.kind === 'station' && findNode(drawing, place.trunk, place.node)?.isOut === true)
    return { kind: 'unit-out' };
  if (isOfGroup(part) && (group === null || !groups.has(group))) return { kind: 'no-such-group' };
  return null;
}
