import { dayOfQuarter, quarterDay, type QuarterFacts } from './pose-quarter.js';
import { type Constraint, quarterConflicts } from './quarter-conflicts.js';
import type { BoundedQuarterPlan } from './prove-quarter.js';
import type { LeftVisitDto, OwedVisitDto, QuarterPlanDto } from './quarter-plan.dto.js';
import type { QuarterProblem } from './quarter-problem.js';

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
      ...whyLeft(facts, problem, plan, visit),
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

function whyLeft(
  facts: QuarterFacts,
  problem: QuarterProblem,
  plan: BoundedQuarterPlan,
  index: number,
): Pick<LeftVisitDto, 'why' | 'conflicts'> {
  const { days = [], wish } = facts.visits[index] ?? {};
  if (wish?.isLeft === true) return { why: 'said-so', conflicts: [] };
  const dayOf = (day: string) => dayOfQuarter(facts.from, day);
  const conflicts = quarterConflicts(problem, plan, {
    index,
    openDays: days.map(dayOf).filter((day) => day >= 0 && day < facts.days),
    on: typeof wish?.on === 'string' ? dayOf(wish.on) : null,
    notOn: (wish?.notOn ?? []).map(dayOf),
    wish,
  });
  return { why: whyOf(conflicts), conflicts };
}

/** In one word, the first that would have to give way wherever one looks. */
function whyOf(conflicts: readonly Constraint[][]): LeftVisitDto['why'] {
  const [first] = conflicts;
  if (first === undefined) return 'weighs-less';
  const always = (one: Constraint) => conflicts.every((set) => set.includes(one));
  if (conflicts.some((set) => set.length === 1 && set[0] === 'room')) return 'no-room';
  if (always('contract-days')) return 'no-day';
  if (always('hours')) return 'nobody-there';
  return 'wishes';
}
