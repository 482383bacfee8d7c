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
  const troubled = new Set(
    heard.filter(({ outcome }) => outcome !== 'works').map((one) => stretchKey(one, one.node)),
  );
  const last = new Map<string, Proof>();
  for (const one of heard) {
    const { trunk, node, function: name, observedAt } = one;
    if (one.outcome !== 'works' || one.saidByKind !== 'technician' || observedAt >= now) continue;
    const path = pathTo(drawing, trunk, node);
    if (path.length === 0 || path.some((fedThrough) => troubled.has(stretchKey(one, fedThrough))))
      continue;
    const daysAgo = daysBetween(observedAt, now);
    const known = last.get(pointKey(one));
    if (known === undefined || daysAgo < known.daysAgo)
      last.set(pointKey(one), { trunk, node, function: name, daysAgo });
  }
  return [...last.values()];
}

function stretchKey({ ticketId, period, trunk }: HeardOnTicket, node: string): string {
  return JSON.stringify([ticketId, period, trunk, node]);
}

/** The node and those that it is fed through; empty where it is not on the drawing. */
function pathTo(drawing: Drawing, trunk: string, node: string): string[] {
  const path: string[] = [];
  let at = findNode(drawing, trunk, node);
  while (at !== undefined && !path.includes(at.node)) {
    path.push(at.node);
    at = at.fedFrom === null ? undefined : findNode(drawing, trunk, at.fedFrom);
  }
  return path;
}
