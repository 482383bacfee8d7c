import type {
  PlacedVisit,
  PromisedVisit,
  QuarterPlan,
  QuarterProblem,
  QuarterTechnician,
} from './quarter-problem.js';

/** Improvements are looked for so often at most; each goes once through all visits. */
const ROUNDS = 20;

/** Whether a technician may make a visit at all. */
export function mayVisit(visit: PromisedVisit, technician: QuarterTechnician): boolean {
  return (
    (visit.pinnedTo ?? technician.id) === technician.id &&
    !visit.notBy.includes(technician.id) &&
    visit.skills.every((skill) => technician.skills.includes(skill))
  );
}

/** What a day weighs for a visit, the way there aside. */
export function dayCost(visit: PromisedVisit, day: number): number {
  return Math.abs(day - visit.idealDay) * visit.dayCost;
}

/**
 * A plan of a quarter that is always there: the visits with the fewest days first, each where it costs least, then each once more as
 * long as that helps. No proof of how good it is.
 */
export function planQuarterGreedily(problem: QuarterProblem): QuarterPlan {
  const order = [...problem.visits.keys()].sort(
    (a, b) =>
      (problem.visits[a]?.days.length ?? 0) - (problem.visits[b]?.days.length ?? 0) || a - b,
  );
  let plan = quarterPlan(problem, []);
  for (let round = 0; round < ROUNDS; round += 1) {
    const before = plan.cost;
    for (const visit of order) plan = putBest(problem, plan, visit);
    if (plan.cost === before) break;
  }
  return plan;
}

/** Placed visits with what the plan weighs. */
export function quarterPlan(problem: QuarterProblem, placed: readonly PlacedVisit[]): QuarterPlan {
  const at = new Set(placed.map(({ visit }) => visit));
  const undone = [...problem.visits.keys()].filter((visit) => !at.has(visit));
  const ways = new Map<string, number>();
  let cost = 0;
  for (const { visit, technician, day } of placed) {
    const wanted = problem.visits[visit];
    if (wanted === undefined) throw new RangeError(`there is no visit ${visit}`);
    cost += dayCost(wanted, day);
    ways.set(`${technician} ${day} ${wanted.area}`, problem.areaMinutes[wanted.area] ?? 0);
  }
  for (const minutes of ways.values()) cost += minutes;
  for (const visit of undone) cost += problem.visits[visit]?.undoneCost ?? 0;
  return { placed: placed.toSorted((a, b) => a.visit - b.visit), undone, cost };
}

function putBest(problem: QuarterProblem, plan: QuarterPlan, visit: number): QuarterPlan {
  const wanted = problem.visits[visit];
  if (wanted === undefined) return plan;
  const others = plan.placed.filter((placed) => placed.visit !== visit);
  const busy = busyDays(problem, others);
  let best: PlacedVisit | undefined;
  let least = wanted.undoneCost;
  for (const [technician, who] of problem.technicians.entries()) {
    if (!mayVisit(wanted, who)) continue;
    for (const day of wanted.days) {
      const at = busy.get(`${technician} ${day}`);
      const way = at?.areas.has(wanted.area) ? 0 : (problem.areaMinutes[wanted.area] ?? 0);
      const cost = dayCost(wanted, day) + way;
      const room = (who.minutesOfDay[day] ?? 0) - (at?.minutes ?? 0) - way - wanted.minutes;
      if (room < 0 || cost >= least) continue;
      least = cost;
      best = { visit, technician, day };
    }
  }
  const tried = quarterPlan(problem, best === undefined ? others : [...others, best]);
  return tried.cost < plan.cost ? tried : plan;
}

function busyDays(problem: QuarterProblem, placed: readonly PlacedVisit[]) {
  const busy = new Map<string, { minutes: number; areas: Set<number> }>();
  for (const { visit, technician, day } of placed) {
    const wanted = problem.visits[visit];
    if (wanted === undefined) continue;
    const key = `${technician} ${day}`;
    const at = busy.get(key) ?? { minutes: 0, areas: new Set<number>() };
    if (!at.areas.has(wanted.area)) at.minutes += problem.areaMinutes[wanted.area] ?? 0;
    at.areas.add(wanted.area);
    at.minutes += wanted.minutes;
    busy.set(key, at);
  }
  return busy;
}
