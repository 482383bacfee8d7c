import type { Proof } from '../locator/index.js';
import { type DrawnRecord as Drawing, findNode } from '../sites/drawing.js';
import { daysBetween } from './exposure.js';
import { type Heard, pointKey } from '../reports/observation.js';

/** What of an observation matters here, with the ticket that it stands on. */
export type HeardOnTicket = Pick<
  Heard,
  'trunk' | 'node' | 'function' | 'outcome' | 'saidByKind' | 'observedAt' | 'period'
> & { ticketId: string };

/**
 * What was seen to work before `now` and counts as proof (fault model, section 7): a technician's word, on a walk test or
 * otherwise. The office's does not: of a hundred dead rooms it calls one or two working, which is more than the faults to
 * be expected. Nor does a room where something failed between the same two mendings of the same ticket, at the station
 * itself or at one that it is fed through: that it works now is no repair.
 */
export function toProofs(drawing: Drawing, heard: readonly HeardOnTicket[], now: Date): Proof[] {
  const isBehindTrouble = behindTrouble(drawing, heard);
  const last = new Map<string, Proof>();
  for (const one of heard) {
    const { trunk, node, function: name, observedAt } = one;
    if (one.outcome !== 'works' || one.saidByKind !== 'technician' || observedAt >= now) continue;
    if (findNode(drawing, trunk, node) === undefined || isBehindTrouble(one)) continue;
    const daysAgo = daysBetween(observedAt, now);
    const known = last.get(pointKey(one));
    if (known === undefined || daysAgo < known.daysAgo)
      last.set(pointKey(one), { trunk, node, function: name, daysAgo });
  }
  return [...last.values()];
}

/** Whether something failed in the same stretch of a ticket at the station or at one that it is fed through. */
function behindTrouble(
  drawing: Drawing,
  heard: readonly HeardOnTicket[],
): (one: HeardOnTicket) => boolean {
  /** By stretch and node; what was asked of one node is known of all those on the way to it. */
  const stretches = new Map<string, Map<string, boolean>>();
  const stretchOf = ({ ticketId, period, trunk }: HeardOnTicket) => {
    const key = JSON.stringify([ticketId, period, trunk]);
    const known = stretches.get(key) ?? new Map<string, boolean>();
    stretches.set(key, known);
    return known;
  };
  for (const one of heard) if (one.outcome !== 'works') stretchOf(one).set(one.node, true);
  return (one) => {
    const known = stretchOf(one);
    const path: string[] = [];
    let at = findNode(drawing, one.trunk, one.node);
    while (at !== undefined && !known.has(at.node)) {
      path.push(at.node);
      known.set(at.node, false);
      at = at.fedFrom === null ? undefined : findNode(drawing, one.trunk, at.fedFrom);
    }
    const isBehind = at !== undefined && known.get(at.node) === true;
    for (const node of path) known.set(node, isBehind);
    return isBehind;
  };
}
