import { mayVisit } from './greedy-quarter.js';
import { quarterDay, type QuarterFacts } from './pose-quarter.js';
import type { BoundedQuarterPlan } from './prove-quarter.js';
import type { LeftVisitDto, OwedVisitDto, QuarterPlanDto } from './quarter-plan.dto.js';
import type { PromisedVisit, QuarterProblem } from './quarter-problem.js';

/** A plan with the ids and days that people know. */
export function tellQuarter(
  facts: QuarterFacts,
  problem: QuarterProblem,
  plan: BoundedQuarterPlan,
): Pick<QuarterPlanDto, 'placed' | 'left' | 'cost' | 'bound' | 'isProven'> {
  const keyOf = ({ visit, technician, day }: (typeof plan.placed)[number]) =>
    `${technician} ${day} ${problem.visits[visit]?.area}`;
  const ways = new Map<string, number>();
  for (const one of plan.placed) ways.set(keyOf(one), (ways.get(keyOf(one)) ?? 0) + 1);
  const placed = plan.placed.map((one) => ({
    ...owedAt(facts, one.visit),
    on: quarterDay(facts.from, one.day),
    technicianId: problem.technicians[one.technician]?.id ?? '',
    sharesWay: (ways.get(keyOf(one)) ?? 0) > 1,
  }));
  const sortKey = ({ on, technicianId, siteId }: (typeof placed)[number]) =>
    `${on} ${technicianId} ${siteId}`;
  return {
    placed: placed.sort((one, other) => (sortKey(one) < sortKey(other) ? -1 : 1)),
    left: plan.undone.map((visit) => ({
      ...owedAt(facts, visit),
      why: whyLeft(problem, plan, problem.visits[visit]),
    })),
    cost: plan.cost,
    bound: plan.bound,
    isProven: plan.bound === plan.cost,
  };
}

function owedAt({ visits, places }: QuarterFacts, index: number): OwedVisitDto {
  const visit = visits[index];
  if (visit === undefined) throw new RangeError(`there is no visit ${index}`);
  const { contractId, siteId, year, ordinal, ideal, standing } = visit;
  const siteName = places.find((place) => place.siteId === siteId)?.siteName ?? '';
  return { contractId, siteId, siteName, year, ordinal, ideal, isLate: standing === 'late' };
}

/** The first that holds: nothing is open; nobody has the hours on any such day; they are taken; leaving it weighs less. */
function whyLeft(
  problem: QuarterProblem,
  plan: BoundedQuarterPlan,
  visit: PromisedVisit | undefined,
): LeftVisitDto['why'] {
  if (visit === undefined || visit.days.length === 0) return 'no-day';
  const way = problem.areaMinutes[visit.area] ?? 0;
  const wanted = visit.minutes + way;
  const open = problem.technicians.flatMap((who, technician) =>
    mayVisit(visit, who)
      ? visit.days
          .filter((day) => (who.minutesOfDay[day] ?? 0) >= wanted)
          .map((day) => (who.minutesOfDay[day] ?? 0) - takenMinutes(problem, plan, technician, day))
      : [],
  );
  if (open.length === 0) return 'nobody-there';
  return open.some((minutes) => minutes >= wanted) ? 'weighs-less' : 'no-room';
}

function takenMinutes(
  problem: QuarterProblem,
  plan: BoundedQuarterPlan,
  technician: number,
  day: number,
): number {
  const there = plan.placed.filter((one) => one.technician === technician && one.day === day);
  const areas = new Set(there.map(({ visit }) => problem.visits[visit]?.area ?? 0));
  const ways = [...areas].reduce((sum, area) => sum + (problem.areaMinutes[area] ?? 0), 0);
  return there.reduce((sum, { visit }) => sum + (problem.visits[visit]?.minutes ?? 0), ways);
}
