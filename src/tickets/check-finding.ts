import type { Place } from '../drawing/drawn-node.js';
import type { ComponentName } from '../locator/index.js';
import { HEAD_END_MODES, PORT_MODES, SPAN_MODES, STATION_MODES } from '../plan/modes.js';
import { type FieldError, InvalidInputError } from '../shared/domain-error.js';
import { type DrawnRecord, findNode } from '../sites/drawing.js';

/** A finding as it was sent. */
export interface SentFinding {
  place?: {
    kind: Place['kind'];
    trunk?: string;
    from?: string | null;
    to?: string;
    node?: string;
  } | null;
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
  const found = toPlace(place, drawing);
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
  return found;
}

function toPlace(place: NonNullable<SentFinding['place']>, drawing: DrawnRecord): Place {
  const { kind, trunk = '' } = place;
  if (kind === 'head-end') return { kind };
  if (trunk === '') {
    throw invalid([{ field: '/place/trunk', reason: `is missing: a ${kind} is of a trunk` }]);
  }
  if (!drawing.trunks.some((one) => one.trunk === trunk)) {
    throw invalid([{ field: '/place/trunk', reason: `there is no trunk ${trunk} on the drawing` }]);
  }
  return kind === 'port' ? { kind, trunk } : toPlaceAtNode(kind, trunk, place, drawing);
}

function toPlaceAtNode(
  kind: 'span' | 'station',
  trunk: string,
  place: NonNullable<SentFinding['place']>,
  drawing: DrawnRecord,
): Place {
  const name = kind === 'span' ? 'to' : 'node';
  const code = place[name] ?? '';
  if (code === '') {
    const reason = kind === 'span' ? 'a span leads to a node' : 'a station stands at a node';
    throw invalid([{ field: `/place/${name}`, reason: `is missing: ${reason}` }]);
  }
  const node = findNode(drawing, trunk, code);
  if (node === undefined) {
    throw invalid([{ field: `/place/${name}`, reason: `there is no ${code} on trunk ${trunk}` }]);
  }
  if (kind === 'station') {
    if (node.kind === 'station') return { kind, trunk, node: code };
    throw invalid([{ field: '/place/node', reason: `${code} is a junction box, not a station` }]);
  }
  if (node.fedFrom !== (place.from ?? null)) {
    const feeder = node.fedFrom ?? 'the head-end (null)';
    throw invalid([{ field: '/place/from', reason: `${code} is fed from ${feeder}` }]);
  }
  return { kind, trunk, from: node.fedFrom, to: code };
}

function invalid(errors: FieldError[]): InvalidInputError {
  return new InvalidInputError(errors);
}
