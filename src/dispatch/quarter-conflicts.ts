import type { QuarterWish } from './pose-quarter.js';
import type {
  PlacedVisit,
  PromisedVisit,
  QuarterProblem,
  QuarterTechnician,
} from './quarter-problem.js';

/**
 * What can stand against a visit: days that the contract leaves open; what somebody wants (a day, other days, who, who not, what whoever
 * makes it must be able to do); how long anybody works; what else is planned then.
 */
export const CONSTRAINTS = [
  'room',
  'notOn',
  'on',
  'notBy',
  'pinnedTo',
  'skills',
  'hours',
  'contract-days',
] as const;

export type Constraint = (typeof CONSTRAINTS)[number];

/** Of so many that conflict at once none is named alone; then all are. */
const MOST_TOGETHER = 3;

/** What of a visit is asked for here; its days as the contract leaves them, whatever was wanted. */
export interface AskedVisit {
  index: number;
  openDays: readonly number[];
  on: number | null;
  notOn: readonly number[];
  wish: QuarterWish | undefined;
}

/**
 * What stands against a visit on any of the days, all of them if none are named: the smallest sets of constraints of which any one,
 * were it not there, would let the visit be placed with the rest of the plan as it is. Empty: it could be placed.
 */
export function quarterConflicts(
  problem: QuarterProblem,
  taken: TakenDays,
  asked: AskedVisit,
  among?: readonly number[],
): Constraint[][] {
  const visit = problem.visits[asked.index];
  if (visit === undefined) throw new RangeError(`there is no visit ${asked.index}`);
  const quarter = problem.technicians[0]?.minutesOfDay.length ?? 0;
  const days = among ?? Array.from({ length: quarter }, (_, day) => day);
  for (let size = 0; size <= MOST_TOGETHER; size += 1) {
    const enough = subsets(CONSTRAINTS, size).filter((lifted) =>
      isPossible({ problem, visit, asked, taken, days }, new Set(lifted)),
    );
    if (enough.length > 0) return enough.filter((set) => set.length > 0);
  }
  return [[...CONSTRAINTS]];
}

/** What a plan has of somebody's days, by technician and day. */
export type TakenDays = ReadonlyMap<string, { minutes: number; areas: ReadonlySet<number> }>;

interface Question {
  problem: QuarterProblem;
  visit: PromisedVisit;
  asked: AskedVisit;
  taken: TakenDays;
  days: readonly number[];
}

function isPossible(question: Question, lifted: ReadonlySet<Constraint>): boolean {
  const { problem, asked } = question;
  const days = question.days.filter(
    (day) =>
      (lifted.has('contract-days') || asked.openDays.includes(day)) &&
      (lifted.has('on') || asked.on === null || asked.on === day) &&
      (lifted.has('notOn') || !asked.notOn.includes(day)),
  );
  return [...problem.technicians.entries()].some(
    ([index, who]) =>
      mayMake(asked.wish, who, lifted) &&
      days.some((day) => hasRoom(question, { index, who, day }, lifted)),
  );
}

function mayMake(
  wish: QuarterWish | undefined,
  { id, skills }: QuarterTechnician,
  lifted: ReadonlySet<Constraint>,
): boolean {
  if (wish === undefined) return true;
  return (
    (lifted.has('pinnedTo') || (wish.pinnedTo ?? id) === id) &&
    (lifted.has('notBy') || !wish.notBy.includes(id)) &&
    (lifted.has('skills') || wish.skills.every((skill) => skills.includes(skill)))
  );
}

function hasRoom(
  { problem, visit, taken }: Question,
  { index, who, day }: { index: number; who: QuarterTechnician; day: number },
  lifted: ReadonlySet<Constraint>,
): boolean {
  if (lifted.has('hours')) return true;
  const there = lifted.has('room') ? undefined : taken.get(`${index} ${day}`);
  const way = there?.areas.has(visit.area) ? 0 : (problem.areaMinutes[visit.area] ?? 0);
  return (who.minutesOfDay[day] ?? 0) - (there?.minutes ?? 0) >= visit.minutes + way;
}

export function takenMinutes(problem: QuarterProblem, placed: readonly PlacedVisit[]): TakenDays {
  const taken = new Map<string, { minutes: number; areas: Set<number> }>();
  for (const { visit, technician, day } of placed) {
    const { area = 0, minutes = 0 } = problem.visits[visit] ?? {};
    const key = `${technician} ${day}`;
    const there = taken.get(key) ?? { minutes: 0, areas: new Set<number>() };
    if (!there.areas.has(area)) there.minutes += problem.areaMinutes[area] ?? 0;
    there.areas.add(area);
    there.minutes += minutes;
    taken.set(key, there);
  }
  return taken;
}

function subsets<Of>(of: readonly Of[], size: number): Of[][] {
  if (size === 0) return [[]];
  return of.flatMap((first, at) =>
    subsets(of.slice(at + 1), size - 1).map((rest) => [first, ...rest]),
  );
}
