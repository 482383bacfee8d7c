import { PAGE_FORMATS } from '../../parts/language.js';
import { local } from '../../parts/time-words.js';
import type { ReadDayPlan } from '../../parts/wire.js';
import type { PlannedJob } from './day-lanes.js';
import { DAY_WORDS } from '../words/words.js';

/** When a plan was made, what it weighs, and how near to the best it is. */
export function planInNumbers(plan: ReadDayPlan): string[] {
  const { madeAt, acceptedAt, routes, roadMinutes, cost, bound, isProven } = plan;
  const jobs = routes.reduce((sum, route) => sum + route.jobs.length, 0);
  const made = DAY_WORDS.made(local(madeAt));
  const gap = PAGE_FORMATS.chance(cost === 0 ? 0 : (cost - bound) / cost);
  return [
    acceptedAt === null ? made : `${made} ${DAY_WORDS.accepted(local(acceptedAt))}`,
    DAY_WORDS.road(roadMinutes, jobs, routes.length),
    `${isProven ? DAY_WORDS.proven(cost) : DAY_WORDS.gap(cost, bound, gap)} ${DAY_WORDS.weighs}`,
  ];
}

export function obstacleInWords({
  kind,
  lacking,
  extraMinutes,
}: ReadDayPlan['undone'][number]['obstacles'][number]): string {
  if (kind === 'skills') return DAY_WORDS.obstacle.skills(lacking.join(', '));
  if (kind === 'price') return DAY_WORDS.obstacle.price(`${extraMinutes ?? 0}`);
  return DAY_WORDS.obstacle[kind]();
}

/** How what was promised stands: "45 min", "12 min too late". */
export function spareInWords({ lateMinutes, spareMinutes }: PlannedJob): string {
  if (lateMinutes > 0) return DAY_WORDS.late(lateMinutes);
  return spareMinutes === null ? DAY_WORDS.noPromise : DAY_WORDS.minutes(spareMinutes);
}

/** "Starts 09:40, by 10:55 with nine chances in ten.", and how likely what was promised is kept. */
export function startInWords({ begins, beginsNineInTen, keptChance }: PlannedJob): string {
  const starts = DAY_WORDS.starts(begins, beginsNineInTen);
  if (keptChance === null) return starts;
  return `${starts} ${DAY_WORDS.kept(PAGE_FORMATS.chance(keptChance))}`;
}

/** What a job is for: its tickets, or an ordinary visit. */
export function jobInWords({ ticketNumbers }: { ticketNumbers: readonly number[] }): string {
  return ticketNumbers.map(DAY_WORDS.ticket).join(', ') || DAY_WORDS.visit;
}
