import type { Place } from '../drawing/drawn-node.js';
import type { FieldError } from '../shared/domain-error.js';
import { type DrawnRecord, findNode } from './drawing.js';

/** A place as it was sent. */
export interface SentPlace {
  kind: Place['kind'];
  trunk?: string;
  from?: string | null;
  to?: string;
  node?: string;
}

/** The place of a drawing that is meant, or the first thing that is wrong with it, named under `field`. */
export function placeOn(
  drawing: DrawnRecord,
  place: SentPlace,
  field: string,
): { place: Place } | { error: FieldError } {
  const { kind, trunk = '' } = place;
  const wrong = (name: string, reason: string) => ({
    error: { field: `${field}/${name}`, reason },
  });
  if (kind === 'head-end') return { place: { kind } };
  if (trunk === '') return wrong('trunk', `is missing: a ${kind} is of a trunk`);
  if (!drawing.trunks.some((one) => one.trunk === trunk))
    return wrong('trunk', `there is no trunk ${trunk} on the drawing`);
  if (kind === 'port') return { place: { kind, trunk } };
  const name = kind === 'span' ? 'to' : 'node';
  const code = place[name] ?? '';
  if (code === '') {
    const reason = kind === 'span' ? 'a span leads to a node' : 'a station stands at a node';
    return wrong(name, `is missing: ${reason}`);
  }
  const node = findNode(drawing, trunk, code);
  if (node === undefined) return wrong(name, `there is no ${code} on trunk ${trunk}`);
  if (kind === 'station') {
    if (node.kind === 'station') return { place: { kind, trunk, node: code } };
    return wrong('node', `${code} is a junction box, not a station`);
  }
  if (node.fedFrom === (place.from ?? null))
    return { place: { kind, trunk, from: node.fedFrom, to: code } };
  return wrong('from', `${code} is fed from ${node.fedFrom ?? 'the head-end (null)'}`);
}
