import type { ReadReview } from '../../parts/wire.js';
import type { AccountYear } from './contract-year.js';

/** What a year cost by what it went for, in minor units; null where a price is not known. Parts that the client pays are none. */
export function costParts({
  labourMinor,
  travelMinor,
  partsMinor,
  partsArePaidFor,
}: AccountYear): [labour: number, ways: number, parts: number] | null {
  if (labourMinor === null || travelMinor === null) return null;
  return [labourMinor, travelMinor, partsArePaidFor ? 0 : (partsMinor ?? 0)];
}

type ReviewedTicket = ReadReview['tickets'][number];

/** A promise of a ticket with its hours of covered time. */
export interface HeldAgainst {
  number: number;
  promise: 'response' | 'restore';
  takenHours: number;
  promisedHours: number;
  isOpen: boolean;
}

/** Each promise of the tickets by number, at most `most`: those that took most of what was promised. */
export function heldAgainst(
  tickets: readonly ReviewedTicket[],
  most: number,
): { shown: HeldAgainst[]; left: number } {
  const all = tickets.flatMap(({ number, clock }) =>
    clock.promises.map(({ promise, minutesTaken, promisedMinutes, state }) => ({
      number,
      promise,
      takenHours: minutesTaken / 60,
      promisedHours: promisedMinutes / 60,
      isOpen: state === 'running' || state === 'paused',
    })),
  );
  const share = (one: HeldAgainst) => one.takenHours / one.promisedHours;
  const longest = [...all].sort((a, b) => share(b) - share(a)).slice(0, most);
  const shown = all.filter((one) => longest.includes(one));
  return {
    shown: shown.sort((a, b) => a.number - b.number || a.promise.localeCompare(b.promise)),
    left: all.length - shown.length,
  };
}

/** Something was found and mended: a failure, by when it was reported. */
export interface CountedFailure {
  number: number;
  siteId: string;
  at: string;
  /** With those before it. */
  count: number;
}

export function failuresOf(tickets: readonly ReviewedTicket[]): CountedFailure[] {
  return tickets
    .filter(({ found, mended }) => found.some(({ words }) => words !== null) && mended.length > 0)
    .map(({ number, siteId, clock }) => ({ number, siteId, at: clock.reportedAt }))
    .sort((a, b) => Date.parse(a.at) - Date.parse(b.at))
    .map((one, i) => ({ ...one, count: i + 1 }));
}

const HOUR = 3_600_000;

type Recorded = Pick<ReadReview, 'from' | 'asOf' | 'sites' | 'reliability'>;

/** From when on failures of the time are counted: there is no record before. */
export function countedFrom({ from, reliability }: Recorded): number {
  return Math.max(Date.parse(from), Date.parse(reliability?.since ?? from));
}

/** How many failures the limits of the mean time between them let expect of all sites until then. */
export function expectedFailures(
  review: Recorded,
  until: number,
): { least: number; mean: number; most: number } | null {
  const { asOf, sites, reliability } = review;
  if (reliability === null) return null;
  const end = Math.min(until, Date.parse(asOf));
  const siteHours = (Math.max(0, end - countedFrom(review)) / HOUR) * sites.length;
  const { lowHours, mtbfHours, highHours } = reliability;
  const times = (hours: number | null) => (hours === null ? 0 : siteHours / hours);
  return { least: times(highHours), mean: times(mtbfHours), most: times(lowHours) };
}
