import { seededRandom } from '../electrical/seeded-random.js';
import { firstSilentRoom, halving, roomByRoom, type Way, type Worked } from './habits.js';
import { byAdvice, byAdviceAskingNobody } from './lastheard.js';
import { SITES, type Trouble } from './troubles.js';

/** Who works the calls: the first by Lastheard's advice, the others by habit. */
const WAYS = {
  'Lastheard’s advice': byAdvice,
  'the same, asking nobody first': byAdviceAskingNobody,
  'from the head-end, room by room': roomByRoom,
  'to the first silent room': firstSilentRoom,
  'halving the stretch': halving,
} as const satisfies Record<string, Way>;
export type WayName = keyof typeof WAYS;
export const WAY_NAMES = [
  'Lastheard’s advice',
  'the same, asking nobody first',
  'from the head-end, room by room',
  'to the first silent room',
  'halving the stretch',
] as const satisfies WayName[];

/** What a year comes to. */
export interface Sums {
  onSiteMinutes: number;
  trips: number;
  /** Of these, second ones and more: a part was not there; not found within the first visit. */
  forParts: number;
  notFound: number;
  spared: number;
  officeMinutes: number;
  silentRoomHours: number;
}
/** Until somebody is there, and until somebody is there again. */
const RESPONSE_HOURS = 4;
const ANOTHER_TRIP_HOURS = 24;

export function sumsOf(trouble: Trouble, worked: Worked): Sums {
  const { officeMinutes, minutes, partTrips, lateTrips, isSpared } = worked;
  const others = partTrips + lateTrips;
  const hours = isSpared
    ? officeMinutes / 60
    : RESPONSE_HOURS + minutes / 60 + ANOTHER_TRIP_HOURS * others;
  return {
    onSiteMinutes: minutes,
    trips: isSpared ? 0 : 1 + others,
    forParts: partTrips,
    notFound: lateTrips,
    spared: isSpared ? 1 : 0,
    officeMinutes,
    silentRoomHours: trouble.silentRooms * hours,
  };
}

/** One call, with what it took by each way. */
export interface WorkedCall {
  trouble: Trouble;
  by: Partial<Record<WayName, Sums>>;
}

export function workCalls(troubles: readonly Trouble[], ways: readonly WayName[]): WorkedCall[] {
  return troubles.map((trouble) => {
    const by = ways.map((name) => [name, sumsOf(trouble, WAYS[name](trouble))] as const);
    return { trouble, by: Object.fromEntries(by) };
  });
}

export interface Estimate {
  mean: number;
  standardError: number;
}

const RESAMPLES = 1000;

/** Of a year: a sum over the calls, with what it varies by if the firm had other sites of the same kind. */
export function estimated(
  calls: readonly WorkedCall[],
  years: number,
  of: (call: WorkedCall) => number,
): Estimate {
  const bySite = new Map<string, number>();
  for (const call of calls) {
    const site = `${Math.floor(call.trouble.seed / 100)}`;
    bySite.set(site, (bySite.get(site) ?? 0) + of(call));
  }
  const sums = [...bySite.values()];
  const sites = SITES * years;
  while (sums.length < sites) sums.push(0);
  const random = seededRandom(77);
  const means = Array.from({ length: RESAMPLES }, () => {
    let sum = 0;
    for (let i = 0; i < sites; i++) sum += sums[Math.floor(random() * sites)]!;
    return sum / years;
  });
  const mean = sums.reduce((sum, one) => sum + one, 0) / years;
  const around = means.reduce((sum, one) => sum + one, 0) / RESAMPLES;
  const variance = means.reduce((sum, one) => sum + (one - around) ** 2, 0) / (RESAMPLES - 1);
  return { mean, standardError: Math.sqrt(variance) };
}
