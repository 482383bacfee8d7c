import { dayCost, mayVisit } from './greedy-quarter.js';
import type { LinearSolver } from './linear-solver.js';
import { type BoundedQuarterPlan, firstQuarter, proveQuarter } from './prove-quarter.js';
import {
  type AskedVisit,
  type Constraint,
  quarterConflicts,
  type TakenDays,
  takenMinutes,
} from './quarter-conflicts.js';
import type { PlacedVisit, QuarterProblem } from './quarter-problem.js';

export interface QuarterQuestion {
  problem: QuarterProblem;
  /** One for each visit of the problem, in its order. */
  asked: readonly AskedVisit[];
  /** Takes the first plan that is found, in place of the best one. */
  isQuick: boolean;
}

/** Why a visit is on its day with its technician, the rest of the plan as it is. */
export interface WhyThere {
  /** What its best day would weigh more; undefined: it is on it, or cannot be. */
  idealExtra?: number;
  /** What stands against its best day. */
  idealConflicts: Constraint[][];
  /** The next best day or technician, and what that would weigh more. */
  instead?: { technician: number; day: number; extraCost: number };
}

/** A plan with why each visit is where it is, in the order of `placed`, and what conflicts at each that is left. */
export interface ReasonedQuarterPlan extends BoundedQuarterPlan {
  why: WhyThere[];
  /** In the order of `undone`. */
  conflicts: Constraint[][][];
}

/** The best plan of a quarter, or the first one, and its reasons. */
export function reasonQuarter(
  { problem, asked, isQuick }: QuarterQuestion,
  solve: LinearSolver,
): ReasonedQuarterPlan {
  const plan = isQuick ? firstQuarter(problem) : proveQuarter(problem, solve);
  const taken = takenMinutes(problem, plan.placed);
  return {
    ...plan,
    why: plan.placed.map((one) => whyThere(problem, plan.placed, one, asked[one.visit])),
    conflicts: plan.undone.map((visit) => conflictsOf(problem, taken, asked[visit])),
  };
}

function conflictsOf(
  problem: QuarterProblem,
  taken: TakenDays,
  asked: AskedVisit | undefined,
  among?: readonly number[],
): Constraint[][] {
  return asked === undefined ? [] : quarterConflicts(problem, taken, asked, among);
}

function whyThere(
  problem: QuarterProblem,
  placed: readonly PlacedVisit[],
  here: PlacedVisit,
  asked: AskedVisit | undefined,
): WhyThere {
  const others = placed.filter(({ visit }) => visit !== here.visit);
  const taken = takenMinutes(problem, others);
  const places = placesOf(problem, taken, here.visit);
  const isHere = ({ technician, day }: Place) => technician === here.technician && day === here.day;
  const cost = places.find(isHere)?.cost ?? 0;
  const ideal = problem.visits[here.visit]?.idealDay ?? here.day;
  const onIdeal = cheapest(places.filter(({ day }) => day === ideal));
  const instead = cheapest(places.filter((one) => !isHere(one)));
  const isOnIdeal = here.day === ideal;
  return {
    ...(!isOnIdeal && onIdeal !== undefined && { idealExtra: onIdeal.cost - cost }),
    idealConflicts:
      isOnIdeal || onIdeal !== undefined ? [] : conflictsOf(problem, taken, asked, [ideal]),
    ...(instead !== undefined && {
      instead: {
        technician: instead.technician,
        day: instead.day,
        extraCost: instead.cost - cost,
      },
    }),
  };
}

interface Place {
  technician: number;
  day: number;
  /** Of the day and the way, in minutes. */
  cost: number;
}

/** Where a visit could be beside what is taken. */
function placesOf(problem: QuarterProblem, taken: TakenDays, index: number): Place[] {
  const visit = problem.visits[index];
  if (visit === undefined) throw new RangeError(`there is no visit ${index}`);
  return [...problem.technicians.entries()].flatMap(([technician, who]) => {
    if (!mayVisit(visit, who)) return [];
    return visit.days.flatMap((day): Place[] => {
      const there = taken.get(`${technician} ${day}`);
      const way = there?.areas.has(visit.area) ? 0 : (problem.areaMinutes[visit.area] ?? 0);
      const left = (who.minutesOfDay[day] ?? 0) - (there?.minutes ?? 0);
      if (left < visit.minutes + way) return [];
      return [{ technician, day, cost: dayCost(visit, day) + way }];
    });
  });
}

/** The first of those that weigh least. */
function cheapest(places: readonly Place[]): Place | undefined {
  return places.reduce<Place | undefined>(
    (best, one) => (best === undefined || one.cost < best.cost ? one : best),
    undefined,
  );
}
