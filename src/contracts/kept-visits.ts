import type { VisitSlot } from './contract-year.js';

/** A visit made this long before its slot begins counts for it, where the one before has its visit. */
const DAYS_EARLY = 21;

/**
 * What became of a promised visit: made in its slot, or after it; planned; to be made now; its slot over and the year not;
 * the year over and it was never made; its slot still ahead.
 */
export const VISIT_STANDINGS = [
  'done',
  'done-late',
  'planned',
  'due',
  'late',
  'missed',
  'to-come',
] as const;

export type VisitStanding = (typeof VISIT_STANDINGS)[number];

/** What is known of a visit for upkeep of the site. */
export interface UpkeepVisit {
  id: string;
  on: string;
  isDone: boolean;
}

export interface StandingSlot extends VisitSlot {
  standing: VisitStanding;
  /** The visit that keeps the promise, or is to. */
  visitId: string | null;
  visitOn: string | null;
}

/**
 * Which visit keeps which promise. A visit counts for the slot it is made in; where that one has a visit, for the earliest
 * slot before that has none; else for the next one, when it comes shortly before. Each visit counts once, and a promise
 * that was not kept stays one when the year is over.
 */
export function standOf(
  slots: readonly VisitSlot[],
  visits: readonly UpkeepVisit[],
  today: string,
): { slots: StandingSlot[]; further: string[] } {
  const kept = new Map<number, UpkeepVisit>();
  const further: string[] = [];
  const inOrder = [...visits].sort(
    (one, other) => Number(other.isDone) - Number(one.isDone) || compare(one.on, other.on),
  );
  const waiting: UpkeepVisit[] = [];
  for (const visit of inOrder) {
    const own = slots.findIndex(({ from, until }) => from <= visit.on && visit.on < until);
    if (own >= 0 && !kept.has(own)) kept.set(own, visit);
    else waiting.push(visit);
  }
  for (const visit of waiting) {
    const place = elsewhere(slots, kept, visit.on);
    if (place >= 0) kept.set(place, visit);
    else further.push(visit.id);
  }
  const yearEnds = new Map<number, string>();
  for (const { year, until } of slots) yearEnds.set(year, until);
  return {
    further,
    slots: slots.map((slot, index) => {
      const visit = kept.get(index);
      const standing = standingOf(slot, visit, { today, yearEnd: yearEnds.get(slot.year) ?? '' });
      return { ...slot, standing, visitId: visit?.id ?? null, visitOn: visit?.on ?? null };
    }),
  };
}

function elsewhere(
  slots: readonly VisitSlot[],
  kept: ReadonlyMap<number, UpkeepVisit>,
  on: string,
): number {
  const owed = slots.findIndex(({ until }, index) => until <= on && !kept.has(index));
  if (owed >= 0) return owed;
  return slots.findIndex(
    ({ from }, index) => on < from && daysFrom(on, from) <= DAYS_EARLY && !kept.has(index),
  );
}

function standingOf(
  { from, until }: VisitSlot,
  visit: UpkeepVisit | undefined,
  { today, yearEnd }: { today: string; yearEnd: string },
): VisitStanding {
  if (visit?.isDone === true) return visit.on < until ? 'done' : 'done-late';
  if (visit !== undefined && visit.on >= today) return 'planned';
  if (today < from) return 'to-come';
  if (today < until) return 'due';
  return today < yearEnd ? 'late' : 'missed';
}

function daysFrom(day: string, until: string): number {
  return (Date.parse(until) - Date.parse(day)) / 86_400_000;
}

function compare(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}
