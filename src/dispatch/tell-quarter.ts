import {
  type OwedVisitFacts,
  quarterDay,
  type QuarterFacts,
  type SitePlace,
} from './pose-quarter.js';
import type { Constraint } from './quarter-conflicts.js';
import type {
  LeftVisitDto,
  OwedVisitDto,
  PlacedVisitDto,
  QuarterPlanDto,
} from './quarter-plan.dto.js';
import type { QuarterProblem } from './quarter-problem.js';
import type { ReasonedQuarterPlan, WhyThere } from './reason-quarter.js';

/** A plan with the ids and days that people know. */
export function tellQuarter(
  facts: QuarterFacts,
  problem: QuarterProblem,
  plan: ReasonedQuarterPlan,
): Pick<QuarterPlanDto, 'placed' | 'left' | 'cost' | 'bound' | 'isProven'> {
  const keyOf = ({ visit, technician, day }: (typeof plan.placed)[number]) =>
    `${technician} ${day} ${problem.visits[visit]?.area}`;
  const ways = new Map<string, number>();
  for (const one of plan.placed) ways.set(keyOf(one), (ways.get(keyOf(one)) ?? 0) + 1);
  const placed = plan.placed.map((one, index) => ({
    ...owedAt(facts, one.visit),
    ...toldWhy(facts, problem, plan.why[index] ?? { idealConflicts: [] }),
    on: quarterDay(facts.from, one.day),
    technicianId: problem.technicians[one.technician]?.id ?? '',
    area: problem.visits[one.visit]?.area ?? 0,
    sharesWay: (ways.get(keyOf(one)) ?? 0) > 1,
  }));
  const sortKey = ({ on, technicianId, siteId }: (typeof placed)[number]) =>
    `${on} ${technicianId} ${siteId}`;
  return {
    placed: placed.sort((one, other) => (sortKey(one) < sortKey(other) ? -1 : 1)),
    left: plan.undone.map((visit, index) => ({
      ...owedAt(facts, visit),
      ...whyLeft(facts, visit, plan.conflicts[index] ?? []),
    })),
    cost: plan.cost,
    bound: plan.bound,
    isProven: plan.bound === plan.cost,
  };
}

function owedAt({ visits, places }: QuarterFacts, index: number): OwedVisitDto {
  const visit = visits[index];
  if (visit === undefined) throw new RangeError(`there is no visit ${index}`);
  return tellOwed(visit, places);
}

export function tellOwed(visit: OwedVisitFacts, places: readonly SitePlace[]): OwedVisitDto {
  const { contractId, siteId, year, ordinal, ideal, standing } = visit;
  const siteName = places.find((place) => place.siteId === siteId)?.siteName ?? '';
  return { contractId, siteId, siteName, year, ordinal, ideal, isLate: standing === 'late' };
}

function whyLeft(
  facts: QuarterFacts,
  index: number,
  conflicts: Constraint[][],
): Pick<LeftVisitDto, 'why' | 'conflicts'> {
  if (facts.visits[index]?.wish?.isLeft === true) return { why: 'said-so', conflicts: [] };
  return { why: whyOf(conflicts), conflicts };
}

function toldWhy(
  { from }: QuarterFacts,
  { technicians }: QuarterProblem,
  { idealExtra, idealConflicts, instead }: WhyThere,
): Pick<PlacedVisitDto, 'idealExtraMinutes' | 'idealConflicts' | 'instead'> {
  return {
    idealExtraMinutes: idealExtra ?? null,
    idealConflicts,
    instead:
      instead === undefined
        ? null
        : {
            on: quarterDay(from, instead.day),
            technicianId: technicians[instead.technician]?.id ?? '',
            extraMinutes: instead.extraCost,
          },
  };
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
