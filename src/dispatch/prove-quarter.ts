import { dayCost, mayVisit, planQuarterGreedily, quarterPlan } from './greedy-quarter.js';
import type { LinearColumn, LinearSolver } from './linear-solver.js';
import type { PlacedVisit, QuarterPlan, QuarterProblem } from './quarter-problem.js';

/** Beyond, no model is made: the plan is the greedy one, and its bound a loose one. */
const MOST_COLUMNS = 30_000;

const TOLERANCE = 1e-6;

/** A plan, and what no plan can be below: equal where it is proven to be the best. */
export interface BoundedQuarterPlan extends QuarterPlan {
  bound: number;
}

/**
 * The best plan of a quarter: each visit on one of its days by one technician or left out, no day longer than it is, the way to an
 * area once a day and technician. The solver begins with the greedy plan; what it has not proven in its time is told by the bound.
 */
export function proveQuarter(problem: QuarterProblem, solve: LinearSolver): BoundedQuarterPlan {
  const greedy = planQuarterGreedily(problem);
  // The solver takes no model without a row.
  if (problem.visits.length === 0) return { ...greedy, bound: greedy.cost };
  const model = new QuarterModel(problem);
  const solution =
    model.choices.length > MOST_COLUMNS
      ? undefined
      : solve({ ...model.linear(), whole: true, known: model.valuesOf(greedy) });
  if (solution === undefined) return { ...greedy, bound: looseQuarterBound(problem) };
  const placed = model.choices.filter((_, column) => (solution.values[column] ?? 0) > 0.5);
  const found = quarterPlan(problem, placed);
  const best = found.cost < greedy.cost ? found : greedy;
  return { ...best, bound: Math.min(best.cost, Math.ceil(solution.bound - TOLERANCE)) };
}

/** The plan that is there at once, with what no plan can be below. */
export function firstQuarter(problem: QuarterProblem): BoundedQuarterPlan {
  const greedy = planQuarterGreedily(problem);
  return { ...greedy, bound: Math.min(greedy.cost, looseQuarterBound(problem)) };
}

/** Each visit on the best of its days, with no way: what no plan can be below. */
function looseQuarterBound({ visits }: QuarterProblem): number {
  return visits.reduce(
    (sum, visit) =>
      sum + Math.min(visit.undoneCost, ...visit.days.map((day) => dayCost(visit, day))),
    0,
  );
}

/** Columns: a visit on a day by somebody; a way to an area on a day by somebody; a visit left out. */
class QuarterModel {
  readonly choices: PlacedVisit[] = [];
  private readonly ways = new Map<string, { area: number; key: string; index: number }>();
  private readonly days = new Map<string, { minutes: number; index: number }>();

  constructor(private readonly problem: QuarterProblem) {
    for (const [visit, wanted] of problem.visits.entries()) {
      for (const [technician, who] of problem.technicians.entries()) {
        if (!mayVisit(wanted, who)) continue;
        for (const day of wanted.days) {
          const minutes = who.minutesOfDay[day] ?? 0;
          if (wanted.minutes + (problem.areaMinutes[wanted.area] ?? 0) > minutes) continue;
          this.choices.push({ visit, technician, day });
          const key = `${technician} ${day}`;
          if (!this.days.has(key)) this.days.set(key, { minutes, index: this.days.size });
          const way = `${key} ${wanted.area}`;
          if (!this.ways.has(way)) {
            this.ways.set(way, { area: wanted.area, key, index: this.ways.size });
          }
        }
      }
    }
  }

  /** Rows: each visit once; each day's minutes; no visit without the way there. */
  linear(): { columns: LinearColumn[]; rowLower: number[]; rowUpper: number[] } {
    const { visits, areaMinutes } = this.problem;
    const firstDay = visits.length;
    const firstLink = firstDay + this.days.size;
    const links = new Map<number, (readonly [number, number])[]>();
    const columns = this.choices.map((choice, index): LinearColumn => {
      const wanted = visits[choice.visit];
      const { way, day } = this.rowsOf(choice);
      const link = [firstLink + index, 1] as const;
      links.set(way, [...(links.get(way) ?? []), [firstLink + index, -1] as const]);
      return {
        cost: wanted === undefined ? 0 : dayCost(wanted, choice.day),
        rows: [[choice.visit, 1], [firstDay + day, wanted?.minutes ?? 0], link],
      };
    });
    for (const { area, key, index } of this.ways.values()) {
      const minutes = areaMinutes[area] ?? 0;
      const day = firstDay + (this.days.get(key)?.index ?? 0);
      columns.push({ cost: minutes, rows: [[day, minutes], ...(links.get(index) ?? [])] });
    }
    for (const [visit, { undoneCost }] of visits.entries()) {
      columns.push({ cost: undoneCost, rows: [[visit, 1]] });
    }
    return {
      columns,
      rowLower: [...visits.map(() => 1), ...fill(this.days.size + this.choices.length, -Infinity)],
      rowUpper: [
        ...visits.map(() => 1),
        ...[...this.days.values()].map(({ minutes }) => minutes),
        ...fill(this.choices.length, 0),
      ],
    };
  }

  valuesOf({ placed, undone }: QuarterPlan): number[] {
    const taken = new Set(placed.map((choice) => keyOf(choice)));
    const ways = new Set(placed.map((choice) => this.rowsOf(choice).way));
    return [
      ...this.choices.map((choice) => (taken.has(keyOf(choice)) ? 1 : 0)),
      ...[...this.ways.values()].map(({ index }) => (ways.has(index) ? 1 : 0)),
      ...this.problem.visits.map((_, visit) => (undone.includes(visit) ? 1 : 0)),
    ];
  }

  private rowsOf({ visit, technician, day }: PlacedVisit): { way: number; day: number } {
    const key = `${technician} ${day}`;
    const way = this.ways.get(`${key} ${this.problem.visits[visit]?.area}`);
    return { way: way?.index ?? 0, day: this.days.get(key)?.index ?? 0 };
  }
}

function keyOf({ visit, technician, day }: PlacedVisit): string {
  return `${visit} ${technician} ${day}`;
}

function fill(length: number, value: number): number[] {
  return Array.from({ length }, () => value);
}
