import type { DayJob, DayProblem, DayTechnician } from './day-problem.js';
import { minuteOfDay } from '../shared/time-of-day.js';
import { expectedLateMinutes } from './late-risk.js';
import { type NeededTogether, secondTripChance, type VanPart } from '../vans/van-parts.js';
import { type Coordinates, travelMinutes, type TravelRules } from './travel-minutes.js';

/** A visit of the day, or an open ticket that nobody visits yet. */
export interface JobFacts {
  id: string;
  kind: 'visit' | 'ticket';
  siteId: string;
  siteName: string;
  latitude: number | null;
  longitude: number | null;
  /** Who it is planned with. */
  technicianId: string | null;
  upkeep: boolean;
  /** Agreed hours, by the wall clock of the site; "08:30". */
  fromTime: string | null;
  untilTime: string | null;
  /** Hours in which a promised visit may be made, in order; none: at any time. */
  visitHours: readonly { from: string; until: string }[];
  tickets: readonly { id: string; number: number }[];
  /** Promised instants, in minutes since the day's midnight at the site. */
  respondBy: number | null;
  restoreBy: number | null;
  /** Now, in the same minutes: below 0 before the day. */
  nowMinute: number;
  /** What the walk on site is expected to take and to need, and the deviation of the minutes; null where nobody reckoned it. */
  walk: WalkFacts | null;
}

export interface WalkFacts {
  minutes: number;
  spreadMinutes: number;
  /** Parts that are worth taking along, most needed first. */
  parts: readonly { name: string; neededChance: number }[];
  neededTogether: readonly NeededTogether[];
}

export interface WishFacts {
  pinnedTo: string | null;
  notBy: readonly string[];
  minutes: number | null;
  skills: readonly string[];
}

export interface TechnicianFacts {
  id: string;
  fromMinute: number;
  toMinute: number;
  skills: readonly string[];
  startLatitude: number | null;
  startLongitude: number | null;
  endsAtStart: boolean;
  /** What their van carries; null: nobody said. */
  van: readonly VanPart[] | null;
}

export interface DayRules extends TravelRules {
  upkeepMinutes: number;
  callOutMinutes: number;
  movedMinutes: number;
  /** A second trip for a part that was missing. */
  secondTripMinutes: number;
  roads: readonly { siteIds: readonly [string, string]; km: number }[];
}

export interface DayFacts {
  jobs: readonly JobFacts[];
  technicians: readonly TechnicianFacts[];
  wishes: Readonly<Record<string, WishFacts>>;
  rules: DayRules;
}

/** Where a length comes from: somebody said it, hours were agreed, the walk was reckoned, or it is the firm's usual one. */
export type LengthSource = 'said' | 'agreed' | 'walk' | 'usual';

/** A way to or from a place whose coordinates nobody has entered. Common practice, no source. */
const UNKNOWN_WAY_MINUTES = 30;

/** What leaving a job for another day weighs, in minutes of travel, and what a minute beyond a promise does. Ours. */
const UNDONE = { promised: 960, callOut: 480, visit: 360 };
const LATE_PER_MINUTE = 3;

/** Rooms are silent until somebody comes: a minute of that weighs as much as a minute on the road. Ours. */
const WAIT_PER_MINUTE = 1;

/** The plan's problem of what is known of a day. */
export function poseDay({ jobs, technicians, wishes, rules }: DayFacts): DayProblem {
  const places = [
    ...jobs.map(({ siteId, latitude, longitude }) => ({ siteId, at: at(latitude, longitude) })),
    ...technicians.map(({ startLatitude, startLongitude }) => ({
      siteId: undefined,
      at: at(startLatitude, startLongitude),
    })),
  ];
  const roads = new Map(
    rules.roads.flatMap(({ siteIds: [a, b], km }) => [
      [`${a} ${b}`, km],
      [`${b} ${a}`, km],
    ]),
  );
  const waitsFrom = Math.min(...technicians.map(({ fromMinute }) => fromMinute));
  const dayEnds = Math.max(waitsFrom, ...technicians.map(({ toMinute }) => toMinute));
  return {
    jobs: jobs.map((job, place) => {
      const secondTripCost = secondTripCosts(job, technicians, rules);
      const posed = { ...poseJob(job, place, wishes[job.id], rules), secondTripCost };
      return { ...posed, undoneCost: posed.undoneCost + costAt(posed, waitsFrom, dayEnds) };
    }),
    technicians: technicians.map((technician, index) =>
      poseTechnician(technician, jobs.length + index),
    ),
    travelMinutes: places.map((from) =>
      places.map((to) => {
        if (from === to || (from.siteId !== undefined && from.siteId === to.siteId)) return 0;
        if (from.at === undefined || to.at === undefined) return UNKNOWN_WAY_MINUTES;
        return travelMinutes(from.at, to.at, rules, roads.get(`${from.siteId} ${to.siteId}`));
      }),
    ),
    waitsFrom,
    movedCost: rules.movedMinutes,
  };
}

/** By technician: the chance that their van lacks something that is needed, times what a second trip takes. */
function secondTripCosts(
  job: JobFacts,
  technicians: readonly TechnicianFacts[],
  { secondTripMinutes }: DayRules,
): Record<string, number> {
  return Object.fromEntries(
    technicians.flatMap(({ id, van }) => {
      const chance = chanceOfSecondTrip(job, van);
      return chance === undefined ? [] : [[id, Math.round(chance * secondTripMinutes)]];
    }),
  );
}

/** Undefined where nobody reckoned what is needed, or said what the van carries. */
export function chanceOfSecondTrip(
  { walk }: Pick<JobFacts, 'walk'>,
  van: TechnicianFacts['van'],
): number | undefined {
  return walk === null || van === null ? undefined : secondTripChance(van, walk.neededTogether);
}

/** What is left waits and is late until the day ends at least: else what is late already would never be done. */
function costAt(job: DayJob, waitsFrom: number, dayEnds: number): number {
  if (dayEnds === Infinity) return 0;
  const late = expectedLateMinutes({ ...job, windows: [] }, { arrives: dayEnds, deviation: 0 });
  return Math.ceil(late * job.latePerMinute) + (dayEnds - waitsFrom) * job.waitPerMinute;
}

/**
 * By how much work differs from what was expected of it, as a share: how quick somebody is, what is in the way. And call-outs of
 * which nothing was reckoned, whose lengths differ as those of visits do at first.
 * Invented starting values.
 */
const WORK_DEVIATION = 0.3;
const CALL_OUT_DEVIATION = 0.65;

/** How long a job is expected to take, by how much it may be otherwise (a deviation), and where that comes from. */
export function lengthOf(
  job: JobFacts,
  wish: WishFacts | undefined,
  rules: DayRules,
): { minutes: number; spreadMinutes: number; source: LengthSource } {
  if (typeof wish?.minutes === 'number') {
    return { minutes: wish.minutes, spreadMinutes: 0, source: 'said' };
  }
  const agreed = agreedMinutes(job);
  if (agreed !== undefined) {
    return { minutes: agreed.until - agreed.from, spreadMinutes: 0, source: 'agreed' };
  }
  const upkeep = job.upkeep ? rules.upkeepMinutes : 0;
  if (job.walk !== null) {
    const minutes = upkeep + job.walk.minutes;
    const spreadMinutes = Math.hypot(job.walk.spreadMinutes, WORK_DEVIATION * minutes);
    return { minutes: Math.max(1, Math.ceil(minutes)), spreadMinutes, source: 'walk' };
  }
  const callOut = job.upkeep ? 0 : rules.callOutMinutes;
  const spreadMinutes = WORK_DEVIATION * upkeep + CALL_OUT_DEVIATION * callOut;
  return { minutes: Math.max(1, upkeep + callOut), spreadMinutes, source: 'usual' };
}

function poseJob(
  job: JobFacts,
  place: number,
  wish: WishFacts | undefined,
  rules: DayRules,
): DayJob {
  const { minutes, spreadMinutes } = lengthOf(job, wish, rules);
  const isPromised = job.respondBy !== null || job.restoreBy !== null;
  const undone = job.kind === 'visit' ? UNDONE.visit : UNDONE.callOut;
  return {
    id: job.id,
    place,
    minutes,
    variance: Math.round(spreadMinutes ** 2),
    windows: windowsOf(job, minutes),
    skills: wish?.skills ?? [],
    ...(job.respondBy !== null && { respondBy: job.respondBy }),
    ...(job.restoreBy !== null && { restoreBy: job.restoreBy }),
    latePerMinute: LATE_PER_MINUTE,
    waitPerMinute: job.kind === 'ticket' ? WAIT_PER_MINUTE : 0,
    undoneCost: isPromised ? UNDONE.promised : undone,
    ...(typeof wish?.pinnedTo === 'string' && { pinnedTo: wish.pinnedTo }),
    notBy: wish?.notBy ?? [],
    ...(job.technicianId !== null && { plannedBefore: job.technicianId }),
  };
}

/** When a job may begin: at the agreed time, at any once that has gone by; else so that it ends within the contract's hours for visits, where one is long enough. */
function windowsOf(job: JobFacts, minutes: number): DayJob['windows'] {
  const agreed = agreedMinutes(job);
  if (agreed !== undefined) {
    return agreed.from < job.nowMinute ? [] : [{ from: agreed.from, to: agreed.from }];
  }
  return job.visitHours.flatMap(({ from, until }) => {
    const range = { from: minuteOfDay(from) ?? 0, to: (minuteOfDay(until) ?? 0) - minutes };
    return range.to >= range.from ? [range] : [];
  });
}

function agreedMinutes({ fromTime, untilTime }: JobFacts) {
  const from = minuteOfDay(fromTime ?? '');
  const until = minuteOfDay(untilTime ?? '');
  return from === undefined || until === undefined ? undefined : { from, until };
}

function poseTechnician(technician: TechnicianFacts, place: number): DayTechnician {
  const { id, fromMinute, toMinute, skills, endsAtStart } = technician;
  const day = { id, fromMinute, toMinute, skills, startPlace: place };
  return endsAtStart ? { ...day, endPlace: place } : day;
}

function at(latitude: number | null, longitude: number | null): Coordinates | undefined {
  return latitude === null || longitude === null ? undefined : { latitude, longitude };
}
