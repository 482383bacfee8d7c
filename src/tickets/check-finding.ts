import type { Place } from '../drawing/drawn-node.js';
import type { ComponentName } from '../locator/index.js';
import { HEAD_END_MODES, PORT_MODES, SPAN_MODES, STATION_MODES } from '../plan/modes.js';
import { type FieldError, InvalidInputError } from '../shared/domain-error.js';
import { isOfGroup, type SeenPart } from '../looks/look.js';
import { placeOn, type SentPlace } from '../sites/check-place.js';
import type { DrawnRecord } from '../sites/drawing.js';

/** A finding as it was sent. */
export interface SentFinding {
  place?: SentPlace | null;
  component?: string | null;
  mode?: string | null;
}

const COMPONENTS_OF_PLACE: Record<Place['kind'], readonly ComponentName[]> = {
  span: ['junction-out', 'cable', 'junction-in'],
  station: ['station'],
  port: ['port'],
  'head-end': ['head-end'],
};

const MODES_OF_PLACE: Record<Place['kind'], readonly string[]> = {
  span: SPAN_MODES,
  station: STATION_MODES,
  port: PORT_MODES,
  'head-end': HEAD_END_MODES,
};

/**
 * The place that was found faulty, if it is on the drawing and the component and mode can be there;
 * null when nothing was found. All that is wrong is named at once.
 */
export function checkFinding(finding: SentFinding, drawing: DrawnRecord): Place | null {
  const { place, component, mode } = finding;
  if (place == null) {
    const named = Object.entries({ component, mode }).filter(([, value]) => value != null);
    const reason = 'needs a place: without one, nothing was found';
    if (named.length > 0) throw invalid(named.map(([name]) => ({ field: `/${name}`, reason })));
    return null;
  }
  const found = placeOn(drawing, place, '/place');
  if ('error' in found) throw invalid([found.error]);
  const components: readonly string[] = COMPONENTS_OF_PLACE[place.kind];
  const modes = MODES_OF_PLACE[place.kind];
  const errors: FieldError[] = [];
  if (component != null && !components.includes(component)) {
    errors.push({ field: '/component', reason: `a ${place.kind} has: ${components.join(', ')}` });
  }
  if (mode != null && !modes.includes(mode)) {
    errors.push({ field: '/mode', reason: `can be: ${modes.join(', ')}` });
  }
  if (errors.length > 0) throw invalid(errors);
  return found.place;
}

/** What was found, as a look at the part that it names; null where it names none. */
export function lookFound(
  place: Place | null,
  component: string | null = null,
  mode: string | null = null,
): SeenPart | null {
  const look = (part: string | null) =>
    place === null || part === null ? null : { place, part, group: null, seen: 'faulty' as const };
  switch (place?.kind) {
    case 'span':
      return look(component);
    case 'station':
      return look(mode ?? 'unit');
    case 'port':
      return look('no-output');
    case 'head-end':
      return look(mode !== null && isOfGroup(mode) ? null : mode);
    case undefined:
      return null;
  }
}

function invalid(errors: FieldError[]): InvalidInputError {
  return new InvalidInputError(errors);
}
