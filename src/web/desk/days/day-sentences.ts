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

/** Which parts are in the van, which to load, and what comes of what is missing there and with the next best. */
export function partsInWords(
  { parts = [], secondTripChance, instead }: PlannedJob,
  nameOf: (technicianId: string) => string,
): string[] {
  const listed = (isInVan: boolean | null, say: (parts: string) => string) => {
    const named = parts
      .filter((part) => part.isInVan === isInVan)
      .map(({ name, neededChance }) =>
        DAY_WORDS.partNeeded(name, PAGE_FORMATS.chance(neededChance)),
      );
    return named.length === 0 ? [] : [say(PAGE_FORMATS.and(named))];
  };
  const trip =
    secondTripChance === undefined || parts.length === 0
      ? []
      : [DAY_WORDS.secondTrip(PAGE_FORMATS.chance(secondTripChance))];
  const theirs = instead?.secondTripChance;
  const other =
    theirs === undefined || parts.length === 0
      ? []
      : [DAY_WORDS.insteadTrip(nameOf(instead?.technicianId ?? ''), PAGE_FORMATS.chance(theirs))];
  return [
    ...listed(true, DAY_WORDS.partsInVan),
    ...listed(false, DAY_WORDS.partsToLoad),
    ...listed(null, DAY_WORDS.partsToTake),
    ...trip,
    ...other,
  ];
}

/** What a job is for: its tickets, or an ordinary visit. */
export function jobInWords({ ticketNumbers }: { ticketNumbers: readonly number[] }): string {
  return ticketNumbers.map(DAY_WORDS.ticket).join(', ') || DAY_WORDS.visit;
}
