import type { ReadDayPlan, ReadWorkingTime } from '../../parts/wire.js';

export type PlannedJob = ReadDayPlan['routes'][number]['jobs'][number];
export type UndoneJob = ReadDayPlan['undone'][number];

/** Minutes since midnight. */
interface MinuteSpan {
  from: number;
  until: number;
}

/** A technician's day as it is drawn. */
export interface Lane {
  technicianId: string;
  hours: MinuteSpan | undefined;
  jobs: readonly { job: PlannedJob; order: number; travel: MinuteSpan; work: MinuteSpan }[];
}

export interface Lanes {
  /** Whole hours, from the first to the last that is drawn. */
  from: number;
  until: number;
  lanes: readonly Lane[];
}

/** What is drawn where nothing is known. */
const USUAL: MinuteSpan = { from: 8 * 60, until: 17 * 60 };

/** The day of everybody who has something to do or is at work, on one scale of hours. */
export function laysLanes(plan: ReadDayPlan, technicians: readonly ReadWorkingTime[]): Lanes {
  const hoursOf = new Map(
    technicians.map((one) => [one.personId, workingHours(one, plan.day)] as const),
  );
  const idle = [...hoursOf].flatMap(([id, hours]) =>
    hours === undefined || plan.routes.some(({ technicianId }) => technicianId === id) ? [] : [id],
  );
  const routes = [...plan.routes, ...idle.map((technicianId) => ({ technicianId, jobs: [] }))];
  const lanes = routes.map(({ technicianId, jobs }): Lane => ({
    technicianId,
    hours: hoursOf.get(technicianId),
    jobs: jobs.map((job, index) => {
      const arrives = minuteOf(job.arrives);
      return {
        job,
        order: index + 1,
        travel: { from: arrives - job.travelMinutes, until: arrives },
        work: { from: minuteOf(job.begins), until: minuteOf(job.ends) },
      };
    }),
  }));
  const drawn = lanes.flatMap(({ hours, jobs }) => [
    ...(hours === undefined ? [] : [hours]),
    ...jobs.flatMap(({ travel, work }) => [travel, work]),
  ]);
  const all = drawn.length === 0 ? [USUAL] : drawn;
  const from = Math.floor(Math.min(...all.map((one) => one.from)) / 60);
  const until = Math.ceil(Math.max(...all.map((one) => one.until)) / 60);
  return { from, until: Math.max(until, from + 1), lanes };
}

function workingHours(time: ReadWorkingTime, day: string): MinuteSpan | undefined {
  const weekday = new Date(`${day}T00:00:00Z`).getUTCDay() || 7;
  const hours = time.hours.find((one) => one.weekday === weekday);
  if (hours === undefined || time.daysOff.includes(day)) return undefined;
  return { from: minuteOf(hours.from), until: minuteOf(hours.until) };
}

function minuteOf(wallClock: string): number {
  const [hours = 0, minutes = 0] = wallClock.split(':').map(Number);
  return hours * 60 + minutes;
}

/** Whether it is a day of the calendar, written year-month-day. */
export function isDayText(text: string): boolean {
  const at = /^\d{4}-\d\d-\d\d$/.test(text) ? new Date(`${text}T00:00:00Z`) : new Date(NaN);
  return !Number.isNaN(at.getTime()) && at.toISOString().startsWith(text);
}

export function dayBeside(day: string, days: number): string {
  const at = Date.parse(`${day}T00:00:00Z`) + days * 24 * 60 * 60_000;
  return new Date(at).toISOString().slice(0, 10);
}
