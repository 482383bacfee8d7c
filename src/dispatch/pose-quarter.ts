import { minuteOfDay } from '../shared/time-of-day.js';
import type { AskedVisit } from './quarter-conflicts.js';
import type { PromisedVisit, QuarterProblem, QuarterTechnician } from './quarter-problem.js';
import {
  type Coordinates,
  greatCircleKm,
  travelMinutes,
  type TravelRules,
} from './travel-minutes.js';

/** A promised visit that nobody planned yet; its days in order. */
export interface OwedVisitFacts {
  contractId: string;
  siteId: string;
  year: number;
  ordinal: number;
  standing: string;
  ideal: string;
  days: readonly string[];
  wish?: QuarterWish;
}

/** What people want of a promised visit. */
export interface QuarterWish {
  pinnedTo: string | null;
  notBy: readonly string[];
  skills: readonly string[];
  /** On this day and no other. */
  on: string | null;
  notOn: readonly string[];
  /** Not in this plan at all. */
  isLeft: boolean;
}

export interface SitePlace {
  siteId: string;
  siteName: string;
  latitude: number | null;
  longitude: number | null;
}

/** What somebody has on a day already: hours that were agreed, and visits of which nobody said how long they take. */
export interface BusyDay {
  technicianId: string;
  on: string;
  minutes: number;
  upkeepVisits: number;
  callOuts: number;
}

export interface QuarterTechnicianFacts {
  personId: string;
  hours: readonly { weekday: number; from: string; until: string }[];
  daysOff: readonly string[];
  skills: readonly string[];
  startLatitude: number | null;
  startLongitude: number | null;
}

export interface QuarterFacts {
  /** The first day. */
  from: string;
  /** How many days. */
  days: number;
  visits: readonly OwedVisitFacts[];
  places: readonly SitePlace[];
  technicians: readonly QuarterTechnicianFacts[];
  busy: readonly BusyDay[];
  rules: TravelRules & { upkeepMinutes: number; callOutMinutes: number };
}

/** Sites so near to the first of an area that one way does for all of them on one day. Ours. */
const AREA_KM = 10;

/** There and back to a place whose coordinates nobody has entered. Common practice, no source. */
const UNKNOWN_WAY_MINUTES = 60;

/** What a day away from the ideal one weighs, what leaving a visit out does, and one that is late: minutes of travel. Ours. */
const DAY_COST = 2;
const UNDONE = { owed: 360, late: 720, pinned: 5000 };

const DAY_MS = 86_400_000;

/** The plan's problem of what is promised in a quarter, who is there, and what they have to do already. */
export function poseQuarter(facts: QuarterFacts): QuarterProblem {
  const areas = areasOf(facts.places);
  const starts = facts.technicians.flatMap(({ startLatitude, startLongitude }) =>
    at(startLatitude, startLongitude),
  );
  return {
    visits: facts.visits.map((visit, index) => poseVisit(facts, visit, index, areas.areaOf)),
    technicians: facts.technicians.map((technician) => poseTechnician(facts, technician)),
    areaMinutes: areas.firsts.map((first) => wayThere(starts, first, facts.rules)),
  };
}

/** What of each visit is asked for, by which is told what stands against a day. */
export function askedOf({ from, days: length, visits }: QuarterFacts): AskedVisit[] {
  const dayOf = (day: string) => dayOfQuarter(from, day);
  return visits.map(({ days, wish }, index) => ({
    index,
    openDays: days.map(dayOf).filter((day) => day >= 0 && day < length),
    on: typeof wish?.on === 'string' ? dayOf(wish.on) : null,
    notOn: (wish?.notOn ?? []).map(dayOf),
    wish,
  }));
}

export function quarterDay(from: string, day: number): string {
  return new Date(Date.parse(from) + day * DAY_MS).toISOString().slice(0, 10);
}

function dayOfQuarter(from: string, day: string): number {
  return (Date.parse(day) - Date.parse(from)) / DAY_MS;
}

function poseVisit(
  { from, days, rules }: QuarterFacts,
  visit: OwedVisitFacts,
  index: number,
  areaOf: ReadonlyMap<string, number>,
): PromisedVisit {
  const dayOf = (day: string) => dayOfQuarter(from, day);
  const { wish } = visit;
  const isPinned = wish !== undefined && (wish.pinnedTo !== null || wish.on !== null);
  const undone = visit.standing === 'late' ? UNDONE.late : UNDONE.owed;
  return {
    id: String(index),
    area: areaOf.get(visit.siteId) ?? 0,
    minutes: rules.upkeepMinutes + rules.minutesEachWay,
    // What was to be made before is best made at once.
    idealDay: Math.min(days - 1, Math.max(0, dayOf(visit.ideal))),
    days: visit.days
      .filter((day) => isWanted(wish, day))
      .map(dayOf)
      .filter((day) => day >= 0 && day < days),
    skills: wish?.skills ?? [],
    dayCost: DAY_COST,
    undoneCost: isPinned ? UNDONE.pinned : undone,
    notBy: wish?.notBy ?? [],
    ...(typeof wish?.pinnedTo === 'string' && { pinnedTo: wish.pinnedTo }),
  };
}

function isWanted(wish: QuarterWish | undefined, day: string): boolean {
  if (wish === undefined) return true;
  return !wish.isLeft && (wish.on ?? day) === day && !wish.notOn.includes(day);
}

function poseTechnician(
  { from, days, busy, rules }: QuarterFacts,
  { personId: id, hours, daysOff, skills }: QuarterTechnicianFacts,
): QuarterTechnician {
  const taken = new Map(
    busy
      .filter(({ technicianId }) => technicianId === id)
      .map(({ on, minutes, upkeepVisits, callOuts }) => [
        on,
        minutes + upkeepVisits * rules.upkeepMinutes + callOuts * rules.callOutMinutes,
      ]),
  );
  const minutesOfDay = Array.from({ length: days }, (_, index) => {
    const day = quarterDay(from, index);
    const weekday = new Date(`${day}T00:00:00Z`).getUTCDay() || 7;
    const own = hours.find((one) => one.weekday === weekday);
    if (own === undefined || daysOff.includes(day)) return 0;
    const whole = (minuteOfDay(own.until) ?? 0) - (minuteOfDay(own.from) ?? 0);
    return Math.max(0, whole - (taken.get(day) ?? 0));
  });
  return { id, skills, minutesOfDay };
}

/** Each site with the first area that it is near to; one of which nobody knows where it lies is an area by itself. */
function areasOf(places: readonly SitePlace[]) {
  const firsts: (Coordinates | undefined)[] = [];
  const areaOf = new Map<string, number>();
  for (const { siteId, latitude, longitude } of places) {
    const [place] = at(latitude, longitude);
    const near = firsts.findIndex(
      (first) =>
        place !== undefined && first !== undefined && greatCircleKm(first, place) <= AREA_KM,
    );
    areaOf.set(siteId, near >= 0 ? near : firsts.length);
    if (near < 0) firsts.push(place);
  }
  return { firsts, areaOf };
}

/** There and back from where days begin, the mean of all whose place is known. */
function wayThere(
  starts: readonly Coordinates[],
  first: Coordinates | undefined,
  rules: TravelRules,
): number {
  if (first === undefined || starts.length === 0) return UNKNOWN_WAY_MINUTES;
  const ways = starts.map((start) => 2 * travelMinutes(start, first, rules));
  return Math.round(ways.reduce((sum, way) => sum + way, 0) / ways.length);
}

function at(latitude: number | null, longitude: number | null): Coordinates[] {
  return latitude === null || longitude === null ? [] : [{ latitude, longitude }];
}
