import type { ReadPlanningRules, ReadVan, ReadWorkingTime } from '../../parts/wire.js';
import { dayBeside } from '../days/day-lanes.js';

export const RULES = [
  'detourFactor',
  'kmPerHour',
  'minutesEachWay',
  'upkeepMinutes',
  'callOutMinutes',
  'movedMinutes',
] as const;

export type Rule = (typeof RULES)[number];

interface NotANumber {
  field: string;
  reason: string;
}

/** Rules as they are typed. */
export interface RulesDraft extends Record<Rule, string> {
  /** Kilometres, by the ids of two sites; undefined: taken off. */
  roads: Partial<Record<string, string>>;
}

/** One way and the other are one road. */
export function roadKey(one: string, other: string): string {
  return [one, other].sort().join(' ');
}

export function rulesDraft({ roads, ...rules }: ReadPlanningRules): RulesDraft {
  const typed = Object.fromEntries(RULES.map((rule) => [rule, String(rules[rule])]));
  return {
    ...(typed as Record<Rule, string>),
    roads: Object.fromEntries(
      roads.map(({ siteIds: [one = '', other = ''], km }) => [roadKey(one, other), String(km)]),
    ),
  };
}

/** The roads that are sent, in their order. */
export function roadsOf({ roads }: RulesDraft): { key: string; km: string }[] {
  return Object.entries(roads).flatMap(([key, km]) => (km === undefined ? [] : [{ key, km }]));
}

export function poseRules(draft: RulesDraft, noNumber: string) {
  const roads = roadsOf(draft).map(({ key, km }) => ({
    siteIds: key.split(' '),
    km: numberOf(km),
  }));
  const rules = Object.fromEntries(RULES.map((rule) => [rule, numberOf(draft[rule])]));
  const errors = [
    ...wrongNumbers(rules, noNumber),
    ...roads.flatMap(({ km }, index) => wrongNumbers({ [`roads/${index}/km`]: km }, noNumber)),
  ];
  return { body: { ...rules, roads }, errors };
}

/** Somebody's working time as it is typed. */
export interface WorkingDraft {
  /** By day of the week, Monday 1. */
  from: Partial<Record<string, string>>;
  until: Partial<Record<string, string>>;
  /** Undefined: taken off. */
  daysOff: Partial<Record<string, true>>;
  /** With commas between them. */
  skills: string;
  startLatitude: string;
  startLongitude: string;
  endsAtStart: boolean;
}

export function workingDraft(time: ReadWorkingTime): WorkingDraft {
  const { hours, daysOff, skills, startLatitude, startLongitude, endsAtStart } = time;
  return {
    from: Object.fromEntries(hours.map(({ weekday, from }) => [weekday, from])),
    until: Object.fromEntries(hours.map(({ weekday, until }) => [weekday, until])),
    daysOff: Object.fromEntries([...daysOff].sort().map((day) => [day, true])),
    skills: skills.join(', '),
    startLatitude: `${startLatitude ?? ''}`,
    startLongitude: `${startLongitude ?? ''}`,
    endsAtStart,
  };
}

/** Monday’s hours on every other workday. */
export function asOnMonday({ from, until }: WorkingDraft): Pick<WorkingDraft, 'from' | 'until'> {
  const workdays = (time: string | undefined) =>
    Object.fromEntries([1, 2, 3, 4, 5].map((day) => [day, time]));
  return {
    from: { ...from, ...workdays(from[1]) },
    until: { ...until, ...workdays(until[1]) },
  };
}

/** The days of the week on which something is typed, in their order. */
export function typedWeekdays({ from, until }: WorkingDraft): number[] {
  return [1, 2, 3, 4, 5, 6, 7].filter((day) => from[day] || until[day]);
}

export function daysOffOf({ daysOff }: WorkingDraft): string[] {
  return Object.keys(daysOff)
    .filter((day) => daysOff[day])
    .sort();
}

export function poseWorking(draft: WorkingDraft, reasons: { number: string; together: string }) {
  const place = {
    startLatitude: numberOrNull(draft.startLatitude),
    startLongitude: numberOrNull(draft.startLongitude),
  };
  const body = {
    ...place,
    hours: typedWeekdays(draft).map((weekday) => ({
      weekday,
      from: draft.from[weekday] ?? '',
      until: draft.until[weekday] ?? '',
    })),
    daysOff: daysOffOf(draft),
    skills: [...new Set(draft.skills.split(',').map((skill) => skill.trim()))].filter(Boolean),
    endsAtStart: draft.endsAtStart,
  };
  const missing = Object.entries(place).filter(([, degrees]) => degrees === null);
  const alone = missing.length === 1 ? missing : [];
  const errors = [
    ...wrongNumbers(place, reasons.number),
    ...alone.map(([field]) => ({ field: `/${field}`, reason: reasons.together })),
  ];
  return { body, errors };
}

/** What a van carries as it is typed: how many, by the name of the part; undefined: taken off. */
export interface VanDraft {
  parts: Partial<Record<string, string>>;
}

export function vanDraft({ parts }: ReadVan): VanDraft {
  return { parts: Object.fromEntries(parts.map(({ name, quantity }) => [name, `${quantity}`])) };
}

/** The parts that are sent, in their order. */
export function carriedParts({ parts }: VanDraft): { name: string; quantity: string }[] {
  return Object.entries(parts).flatMap(([name, quantity]) =>
    quantity === undefined ? [] : [{ name, quantity }],
  );
}

export function poseVan(draft: VanDraft, notWhole: string) {
  const parts = carriedParts(draft).map(({ name, quantity }) => ({
    name,
    quantity: numberOf(quantity),
  }));
  const errors = parts.flatMap(({ quantity }, index) =>
    Number.isInteger(quantity) ? [] : [{ field: `/parts/${index}/quantity`, reason: notWhole }],
  );
  return { body: { parts }, errors };
}

/** Days that follow one another, as the first and the last of them. */
export function runsOf(days: readonly string[]): { first: string; last: string }[] {
  const runs: { first: string; last: string }[] = [];
  for (const day of days) {
    const run = runs.at(-1);
    if (run !== undefined && dayBeside(run.last, 1) === day) run.last = day;
    else runs.push({ first: day, last: day });
  }
  return runs;
}

/** Every day from one to another, or none where they end before they begin; a year of them at most. */
export function daysFromTo(first: string, last: string): string[] {
  const days: string[] = [];
  for (let day = first; day <= last && days.length < 366; day = dayBeside(day, 1)) days.push(day);
  return days;
}

/** Hours of the week, days of the same hours together. */
export function hoursTogether(
  hours: ReadWorkingTime['hours'],
): { first: number; last: number; from: string; until: string }[] {
  const together: { first: number; last: number; from: string; until: string }[] = [];
  for (const { weekday, from, until } of hours.toSorted((a, b) => a.weekday - b.weekday)) {
    const run = together.at(-1);
    const isNext = run?.last === weekday - 1 && run.from === from && run.until === until;
    if (run !== undefined && isNext) run.last = weekday;
    else together.push({ first: weekday, last: weekday, from, until });
  }
  return together;
}

function wrongNumbers(fields: Record<string, number | null>, reason: string): NotANumber[] {
  return Object.entries(fields)
    .filter(([, value]) => Number.isNaN(value))
    .map(([field]) => ({ field: `/${field}`, reason }));
}

/** NaN where none was typed. A comma is a point. */
function numberOf(text: string): number {
  const typed = text.trim().replace(',', '.');
  return /^-?\d+(\.\d+)?$/.test(typed) ? Number(typed) : NaN;
}

function numberOrNull(text: string): number | null {
  return text.trim() === '' ? null : numberOf(text);
}
