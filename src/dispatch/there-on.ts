import { minuteOfDay } from '../shared/time-of-day.js';
import type { VisitUnderWayRow } from './day-facts.repository.js';
import type { DayRules, TechnicianFacts } from './pose-day.js';
import type { WorkingTimeDto } from './working-time.dto.js';

/** What is left of a day. */
export interface DayLeft {
  day: string;
  /** Now, in minutes since the day's midnight; below 0 before the day. */
  nowMinute: number;
  underWay: readonly VisitUnderWayRow[];
  rules: Pick<DayRules, 'upkeepMinutes' | 'callOutMinutes'>;
}

/**
 * Somebody as far as they are there on a day: one, or none. Today is what is left of it, and whoever is on a visit is free when it
 * is likely done, there; their way home at the end of the day is not counted then.
 */
export function thereOn(person: WorkingTimeDto, left: DayLeft): Omit<TechnicianFacts, 'van'>[] {
  const { day, nowMinute, underWay, rules } = left;
  const weekday = new Date(`${day}T00:00:00Z`).getUTCDay() || 7;
  const hours = person.hours.find((one) => one.weekday === weekday);
  if (hours === undefined || person.daysOff.includes(day)) return [];
  const { personId: id, skills, startLatitude, startLongitude, endsAtStart } = person;
  const [from, toMinute] = [minuteOfDay(hours.from) ?? 0, minuteOfDay(hours.until) ?? 0];
  const fromMinute = nowMinute < Infinity ? Math.max(from, nowMinute) : from;
  const own = { id, fromMinute, toMinute, skills, startLatitude, startLongitude, endsAtStart };
  const visit = nowMinute < 0 ? undefined : underWay.find((one) => one.technicianId === id);
  if (visit === undefined) return fromMinute < toMinute ? [own] : [];
  const free = Math.max(fromMinute, likelyDone(visit, rules));
  const { latitude, longitude } = visit;
  const there = { startLatitude: latitude, startLongitude: longitude, endsAtStart: false };
  return free < toMinute ? [{ ...own, ...there, fromMinute: free }] : [];
}

function likelyDone(
  { untilTime, startedMinute, upkeep }: VisitUnderWayRow,
  rules: DayLeft['rules'],
): number {
  const usual = startedMinute + (upkeep ? rules.upkeepMinutes : rules.callOutMinutes);
  return untilTime === null ? usual : (minuteOfDay(untilTime) ?? usual);
}
