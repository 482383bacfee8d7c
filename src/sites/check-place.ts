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
  const atNode = kind === 'span' ? spanOn(drawing, trunk, place) : stationOn(drawing, trunk, place);
  return 'place' in atNode ? atNode : wrong(atNode.name, atNode.reason);
}

type PlaceAtNode = { place: Place } | { name: string; reason: string };

function spanOn(
  drawing: DrawnRecord,
  trunk: string,
  { from = null, to = '' }: SentPlace,
): PlaceAtNode {
  if (to === '') return { name: 'to', reason: 'is missing: a span leads to a node' };
  const node = findNode(drawing, trunk, to);
  if (node === undefined) return { name: 'to', reason: `there is no ${to} on trunk ${trunk}` };
  const { fedFrom } = node;
  if (fedFrom === from) return { place: { kind: 'span', trunk, from: fedFrom, to } };
  return { name: 'from', reason: `${to} is fed from ${fedFrom ?? 'the head-end (null)'}` };
}

function stationOn(
  drawing: DrawnRecord,
  trunk: string,
  { node: code = '' }: SentPlace,
): PlaceAtNode {
  if (code === '') return { name: 'node', reason: 'is missing: a station stands at a node' };
  const node = findNode(drawing, trunk, code);
  if (node === undefined) return { name: 'node', reason: `there is no ${code} on trunk ${trunk}` };
  if (node.kind === 'station') return { place: { kind: 'station', trunk, node: code } };
  return { name: 'node', reason: `${code} is a junction box, not a station` };
}
