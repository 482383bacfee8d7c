import { pointKey } from '../plan/functions.js';
import type { Proof } from '../locator/index.js';
import { type DrawnRecord as Drawing, drawingOf, findNode } from '../sites/drawing.js';
import { daysBetween } from './exposure.js';
import type { Heard } from '../reports/observation.js';

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
  const keyOf = ({ ticketId, period, trunk }: HeardOnTicket) =>
    JSON.stringify([ticketId, period, trunk]);
  const failed = new Map<string, HeardOnTicket[]>();
  for (const one of heard)
    if (one.outcome !== 'works') {
      const key = keyOf(one);
      const known = failed.get(key) ?? [];
      known.push(one);
      failed.set(key, known);
    }
  const behind = new Map<string, ReadonlySet<string>>();
  for (const [key, all] of failed) behind.set(key, withAllBelow(drawing, all));
  return (one) => behind.get(keyOf(one))?.has(one.node) === true;
}

/** The nodes of one trunk that were told of, and all that is fed through them. */
function withAllBelow(drawing: Drawing, told: readonly HeardOnTicket[]): ReadonlySet<string> {
  const found = new Set(told.map(({ node }) => node));
  const tree = drawingOf(drawing).treeOf(told[0]?.trunk ?? '');
  // Every node comes after the one that feeds it.
  tree?.nodeIds.forEach((id, n) => {
    if (found.has(tree.nodeIds[tree.parent[n] ?? -1] ?? '')) found.add(id);
  });
  return found;
}
