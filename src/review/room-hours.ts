import { type CoverageCalendar, coveredStretches } from '../contracts/coverage.js';
import { FUNCTIONS, type FunctionName, pointKey } from '../plan/functions.js';
import type { AsBuilt } from '../sites/as-built.js';
import { speaks } from '../sites/drawing.js';
import type { SaidOfPoint } from './review-question.js';

const HOUR_MS = 3_600_000;

/** A ticket as far as rooms were silent by it; instants in milliseconds since 1970. */
export interface SilentTicket {
  said: readonly (Omit<SaidOfPoint, 'at'> & { at: number })[];
  /** When all worked again, by its log. */
  restoredAt: number | null;
  closedAt: number | null;
}

/** How much of the covered time a function was there, over the rooms of a site. */
export interface FunctionHours {
  function: FunctionName;
  rooms: number;
  roomHours: number;
  lostRoomHours: number;
}

/**
 * Room-hours of each function in covered time between two instants. A function counts as lost at a room from when it was
 * said to fail or to be weak there until it was heard there again, or the ticket was restored; what two tickets say of the
 * same time counts once. What nobody spoke of counts as there.
 */
export function roomHours(
  asBuilt: AsBuilt,
  tickets: readonly SilentTicket[],
  calendar: CoverageCalendar,
  { from, until }: { from: number; until: number },
): FunctionHours[] {
  const stretches = [...coveredStretches(calendar, from, until)];
  const coveredMs = stretches.reduce((sum, one) => sum + one.until - one.from, 0);
  const silent = silentTimes(tickets);
  const stations = asBuilt.trunks.flatMap(({ trunk, nodes }) =>
    nodes.map((node) => ({ trunk, ...node })),
  );
  return FUNCTIONS.flatMap((name) => {
    const able = stations.filter((station) => speaks(station, name));
    if (able.length === 0) return [];
    const lostMs = able.reduce((sum, { trunk, node }) => {
      const times = together(silent.get(pointKey({ trunk, node, function: name })) ?? []);
      return sum + times.reduce((total, time) => total + overlapMs(stretches, time), 0);
    }, 0);
    const hours = (able.length * coveredMs) / HOUR_MS;
    return {
      function: name,
      rooms: able.length,
      roomHours: hours,
      lostRoomHours: lostMs / HOUR_MS,
    };
  });
}

interface Time {
  from: number;
  until: number;
}

function silentTimes(tickets: readonly SilentTicket[]): Map<string, Time[]> {
  const silent = new Map<string, Time[]>();
  for (const { said, restoredAt, closedAt } of tickets) {
    const begun = new Map<string, number>();
    const end = (key: string, heardAt: number) => {
      const from = begun.get(key);
      if (from === undefined) return;
      begun.delete(key);
      const over = [restoredAt, closedAt].find((at) => at !== null && at >= from) ?? Infinity;
      const times = silent.get(key) ?? [];
      times.push({ from, until: Math.min(heardAt, over) });
      silent.set(key, times);
    };
    for (const one of said.toSorted((a, b) => a.at - b.at)) {
      const key = pointKey(one);
      if (one.outcome === 'works') end(key, one.at);
      else if (!begun.has(key)) begun.set(key, one.at);
    }
    for (const key of [...begun.keys()]) end(key, Infinity);
  }
  return silent;
}

/** Times that touch or overlap as one. */
function together(times: readonly Time[]): Time[] {
  const joined: Time[] = [];
  for (const time of times.toSorted((a, b) => a.from - b.from)) {
    const last = joined.at(-1);
    if (last !== undefined && time.from <= last.until)
      last.until = Math.max(last.until, time.until);
    else joined.push({ ...time });
  }
  return joined;
}

function overlapMs(stretches: readonly Time[], { from, until }: Time): number {
  return stretches.reduce(
    (sum, one) => sum + Math.max(0, Math.min(one.until, until) - Math.max(one.from, from)),
    0,
  );
}
