import type { PlannedDayDto, PlannedJobDto, UndoneJobDto } from './day-plan.dto.js';
import { isInVan } from '../vans/van-parts.js';
import { chanceOfSecondTrip, type DayFacts, type JobFacts, lengthOf } from './pose-day.js';
import type { ReasonedDayPlan } from './reason-day.js';
import type { Obstacle, WhyHere } from './why-here.js';

/** A plan with the ids and wall-clock times that people know. */
export function tellDay(
  facts: DayFacts,
  plan: ReasonedDayPlan,
): Omit<PlannedDayDto, 'notThere' | 'isCutOff'> {
  const idOf = (technician: number) => facts.technicians[technician]?.id ?? '';
  return {
    routes: plan.routes.map(({ technician }) => ({
      technicianId: idOf(technician),
      jobs: plan.why
        .filter((why) => why.technician === technician)
        .map((why) => tellJob(facts, why)),
    })),
    undone: plan.whyUndone.map(({ job, obstacles }): UndoneJobDto => ({
      ...jobOf(facts, job),
      obstacles: obstacles.map(({ technician, obstacle }) => ({
        technicianId: idOf(technician),
        ...tellObstacle(obstacle),
      })),
    })),
    cost: plan.cost,
    bound: plan.bound,
    isProven: plan.bound === plan.cost,
    roadMinutes: plan.roadMinutes,
  };
}

function tellJob(
  facts: DayFacts,
  { job, technician, timed, spareMinutes, instead }: WhyHere,
): PlannedJobDto {
  return {
    ...jobOf(facts, job),
    travelMinutes: timed.travelMinutes,
    arrives: wallClock(timed.arrives),
    begins: wallClock(timed.begins),
    ends: wallClock(timed.ends),
    beginsNineInTen: wallClock(timed.beginsLikely),
    endsNineInTen: wallClock(timed.endsLikely),
    lateMinutes: timed.lateMinutes,
    expectedLateMinutes: Math.round(timed.expectedLateMinutes * 10) / 10,
    keptChance: spareMinutes === undefined ? null : timed.keptChance,
    spareMinutes: spareMinutes ?? null,
    instead:
      instead === undefined
        ? null
        : {
            technicianId: facts.technicians[instead.technician]?.id ?? '',
            extraMinutes: instead.extraCost,
            ...tellSecondTrip(facts, job, instead.technician),
          },
    ...tellParts(facts, job, technician),
    ...tellSecondTrip(facts, job, technician),
  };
}

function tellParts(facts: DayFacts, job: number, technician: number) {
  const walk = facts.jobs[job]?.walk ?? null;
  const van = facts.technicians[technician]?.van ?? null;
  if (walk === null) return {};
  const parts = walk.parts.map((part) => ({
    ...part,
    isInVan: van === null ? null : isInVan(van, part.name),
  }));
  return { parts };
}

function tellSecondTrip(facts: DayFacts, job: number, technician: number) {
  const walk = facts.jobs[job]?.walk ?? null;
  const chance = chanceOfSecondTrip({ walk }, facts.technicians[technician]?.van ?? null);
  return chance === undefined ? {} : { secondTripChance: chance };
}

function jobOf(facts: DayFacts, index: number) {
  const job = facts.jobs[index];
  if (job === undefined) throw new RangeError(`there is no job ${index}`);
  const { minutes, spreadMinutes, source } = lengthOf(job, facts.wishes[job.id], facts.rules);
  return {
    jobId: job.id,
    kind: job.kind,
    siteId: job.siteId,
    siteName: job.siteName,
    ticketNumbers: job.tickets.map(({ number }) => number),
    minutes,
    spreadMinutes: Math.round(spreadMinutes * 10) / 10,
    minutesFrom: source,
    placeIsUnknown: isUnknown(job),
  };
}

function isUnknown({ latitude, longitude }: JobFacts): boolean {
  return latitude === null || longitude === null;
}

function tellObstacle(obstacle: Obstacle) {
  return {
    kind: obstacle.kind,
    lacking: obstacle.kind === 'skills' ? [...obstacle.lacking] : [],
    extraMinutes: obstacle.kind === 'price' ? obstacle.extraCost : null,
  };
}

/** "09:05" of 545. */
function wallClock(minute: number): string {
  const two = (number: number) => String(number).padStart(2, '0');
  return `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
}
