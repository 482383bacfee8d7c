import {
  type FunctionName,
  type LocateRequest,
  MAX_DISCONNECTIONS_OF_ONE_TRUNK,
  type SittingsRequest,
} from '../locator/index.js';
import { type DrawnRecord, findNode, speaks, trunksOf } from '../sites/drawing.js';
import { type Heard, informantOf, isTrouble, saidKey } from '../reports/observation.js';
import { byTime, sittingsOf } from './sittings.js';
import { stands } from '../reports/withdrawal.js';
import type { LeftOut } from '../words/index.js';

/**
 * How likely somebody is to volunteer that a silent room is silent. An invented starting value, to
 * be replaced by a firm's own record.
 */
const REPORT_RATE = 0.3;

/** So many last sittings are kept apart, and what came before them is one: each doubles the work. */
const SITTINGS_APART = 4;

/** A request whose exposure is yet to be found: it counts from the first of the evidence. */
type Posed<Request extends LocateRequest> = Omit<Request, 'exposureDays'>;

/** An observation that a location does not go by, and why. */
export interface LeftOutObservation {
  id: string;
  why: LeftOut;
}

/** What of a ticket's observations the locator is asked about, and what was left out of it. */
export interface Evidence {
  request: Posed<LocateRequest>;
  /** The same by sittings; null where all of it was so at the same time. */
  inSittings: Posed<SittingsRequest> | null;
  sittings: number;
  /** Oldest first. */
  used: Heard[];
  /** What is not gone by, oldest first, and why. */
  leftOut: LeftOutObservation[];
}

/**
 * Poses a ticket's drawing and observations as the locator's request. `closedAt`: when the ticket was last closed; what
 * was seen until then led to that and says nothing about why it was taken up again. Of the places at which a trunk was
 * disconnected it goes by the last `disconnections`.
 */
export function toEvidence(
  drawing: DrawnRecord,
  heard: readonly Heard[],
  closedAt: Date | null,
  disconnections: number = MAX_DISCONNECTIONS_OF_ONE_TRUNK,
): Evidence {
  const later = heard.filter((one) => stands(one) && !isFromBefore(one, closedAt));
  const period = periodToExplain(later);
  const disconnected = lastDisconnected(later, disconnections);
  const reasons = new Map<string, LeftOut>();
  const known = heard.filter((one) => {
    const reason = whyNot(one, { drawing, closedAt, period, disconnected, disconnections });
    if (reason !== null) reasons.set(one.id, reason);
    return reason === null;
  });
  const sittings = sittingsOf(known);
  const count = new Set(sittings.values()).size;
  const joined = Math.max(0, count - SITTINGS_APART);
  const apart = ({ id }: Heard) => Math.max(0, (sittings.get(id) ?? 0) - joined);
  const used = lastWords(known, sittings);
  const request = toRequest(drawing, used);
  return {
    request,
    inSittings: count < 2 ? null : toSittings(request, used, apart),
    sittings: count,
    used,
    leftOut: heard
      .filter((one) => !used.includes(one))
      .map(({ id }) => ({ id, why: reasons.get(id) ?? { kind: 'said-again' } })),
  };
}

interface AskedAbout {
  drawing: DrawnRecord;
  closedAt: Date | null;
  period: number;
  /** Where each trunk was disconnected last. */
  disconnected: ReadonlyMap<string, ReadonlySet<string>>;
  disconnections: number;
}

/** Why something that was said is not gone by, the first reason that there is; null where it is. */
function whyNot(one: Heard, asked: AskedAbout): LeftOut | null {
  const { trunk, node, function: name, disconnectedBelow = null } = one;
  if (!stands(one)) return { kind: 'withdrawn' };
  if (isFromBefore(one, asked.closedAt)) return { kind: 'before-closing' };
  if (one.period < asked.period) return { kind: 'before-mending' };
  if (one.period > asked.period) return { kind: 'after-mending' };
  const drawn = findNode(asked.drawing, trunk, node);
  if (drawn === undefined) return { kind: 'no-such-node', node };
  const room = drawn.room ?? node;
  if (drawn.isOut === true) return { kind: 'room-out', room };
  if (!speaks(drawn, name)) return { kind: 'never-fitted', room, function: name };
  if (disconnectedBelow === null) return null;
  if (findNode(asked.drawing, trunk, disconnectedBelow) === undefined)
    return { kind: 'no-such-disconnection', node: disconnectedBelow };
  if (asked.disconnected.get(trunk)?.has(disconnectedBelow) === true) return null;
  return { kind: 'other-disconnections', trunk, most: asked.disconnections };
}

function isFromBefore({ observedAt }: Heard, closedAt: Date | null): boolean {
  return closedAt !== null && observedAt <= closedAt;
}

/** Of each trunk the last places of disconnection. */
function lastDisconnected(heard: readonly Heard[], most: number): Map<string, Set<string>> {
  const last = new Map<string, Set<string>>();
  for (const { trunk, disconnectedBelow } of [...heard].sort(byTime).reverse()) {
    if (disconnectedBelow == null) continue;
    const places = last.get(trunk) ?? new Set<string>();
    last.set(trunk, places);
    if (places.size < most) places.add(disconnectedBelow);
  }
  return last;
}

/** The last sitting in which something did not work, by itself. */
export function lastTroubled({ request, inSittings, used }: Evidence): {
  request: Posed<LocateRequest>;
  used: Heard[];
} {
  if (inSittings === null) return { request, used };
  const sittings = inSittings.observations.map(({ sitting }) => sitting);
  const troubled = sittings.filter((_, i) => used[i] !== undefined && isTrouble(used[i]));
  const last = Math.max(...troubled);
  const { unmentioned, ...rest } = request;
  return {
    request: {
      ...rest,
      observations: (request.observations ?? []).filter((_, i) => sittings[i] === last),
      ...(inSittings.unmentioned?.sitting === last && { unmentioned }),
    },
    used: used.filter((_, i) => sittings[i] === last),
  };
}

function toRequest(
  drawing: DrawnRecord,
  used: readonly Heard[],
): Posed<LocateRequest> & Required<Pick<LocateRequest, 'observations'>> {
  const unmentioned = volunteeredFunctions(used);
  return {
    trunks: trunksOf(drawing),
    observations: used.map((one) => ({
      trunk: one.trunk,
      node: one.node,
      function: one.function,
      outcome: one.outcome,
      informant: { id: informantOf(one), kind: one.saidByKind },
      ...(one.disconnectedBelow != null && { disconnectedBelow: one.disconnectedBelow }),
    })),
    ...(unmentioned.length > 0 && {
      unmentioned: { reportRate: REPORT_RATE, functions: unmentioned },
    }),
  };
}

function toSittings(
  request: ReturnType<typeof toRequest>,
  used: readonly Heard[],
  sittingOf: (one: Heard) => number,
): Posed<SittingsRequest> {
  const { observations, unmentioned, ...rest } = request;
  const volunteered = used
    .filter(({ how, disconnectedBelow }) => how === 'volunteered' && disconnectedBelow == null)
    .map(sittingOf);
  return {
    ...rest,
    observations: observations.map((observation, i) => {
      const one = used[i];
      return { ...observation, sitting: one === undefined ? 0 : sittingOf(one) };
    }),
    ...(unmentioned !== undefined && {
      unmentioned: { ...unmentioned, sitting: Math.max(...volunteered) },
    }),
  };
}

/** The last period in which something did not work: a mending makes a new one. */
function periodToExplain(heard: readonly Heard[]): number {
  const troubled = heard.filter(isTrouble);
  return Math.max(0, ...troubled.map(({ period }) => period));
}

/** The same person saying the same thing twice in one sitting is not two people: the last word counts. */
function lastWords(heard: readonly Heard[], sittings: ReadonlyMap<string, number>): Heard[] {
  const last = new Map<string, Heard>();
  for (const one of [...heard].sort(byTime)) {
    last.set(`${sittings.get(one.id)} ${informantOf(one)} ${saidKey(one)}`, one);
  }
  return [...last.values()].sort(byTime);
}

/**
 * Functions that were only volunteered: silence about a room says something there. Where anybody
 * went through a list, a room that is not on it was not checked, and says nothing.
 */
function volunteeredFunctions(all: readonly Heard[]): FunctionName[] {
  const used = all.filter(({ disconnectedBelow }) => disconnectedBelow == null);
  const volunteered = used.filter(({ how }) => how === 'volunteered').map((one) => one.function);
  const goneThrough = used.filter(({ how }) => how !== 'volunteered').map((one) => one.function);
  return [...new Set(volunteered)].filter((name) => !goneThrough.includes(name));
}
