import { Temporal } from 'temporal-polyfill';

type Day = Temporal.PlainDate;

/** A year of a contract, counted from its first day; the last may be short. Half-open. */
export interface ContractYear {
  /** 1 is the first. */
  number: number;
  from: string;
  until: string;
}

/** A contract's time and the visits that it promises for each year. */
export interface PromisedVisits {
  /** The first day. */
  from: string;
  /** The day after the last. */
  until: string;
  visitsPerYear: number;
  /** Visits on a fixed day each so many months; null: spread evenly. */
  rhythm: { everyMonths: number; onDay: number } | null;
}

/** A time in which one promised visit is to be made. Half-open. */
export interface VisitSlot {
  year: number;
  /** Within the year, from 1. */
  ordinal: number;
  from: string;
  until: string;
  /** The day nearest to the middle, or to the rhythm's day, that is allowed; null: none of the year is. */
  ideal: string | null;
}

/** The contract's years, at most the first so many. Each is counted from the first day, so that one that begins on 29 February comes back to it. */
export function contractYears(
  { from, until }: { from: string; until: string },
  most = Infinity,
): ContractYear[] {
  const first = Temporal.PlainDate.from(from);
  const end = Temporal.PlainDate.from(until);
  const years: ContractYear[] = [];
  for (let number = 1; ; number++) {
    const begins = first.add({ years: number - 1 });
    if (number > most || Temporal.PlainDate.compare(begins, end) >= 0) return years;
    const ends = earlier(first.add({ years: number }), end);
    years.push({ number, from: begins.toString(), until: ends.toString() });
  }
}

/** The time that follows a contract's own: from the day it ends, for as many years, months and days. */
export function nextTerm({ from, until }: { from: string; until: string }): {
  from: string;
  until: string;
} {
  const first = Temporal.PlainDate.from(from);
  const end = Temporal.PlainDate.from(until);
  const length = first.until(end, { largestUnit: 'years' });
  return { from: until, until: end.add(length).toString() };
}

/**
 * The slots of every visit that is promised: they share out each year without gap or overlap. A short last year has its
 * share of the visits, rounded up.
 */
export function visitSlots(
  contract: PromisedVisits,
  isAllowed: (day: string) => boolean = () => true,
): VisitSlot[] {
  return contractYears(contract).flatMap((year) => {
    const edges =
      contract.rhythm === null
        ? evenEdges(contract, year)
        : monthlyEdges(contract, year, contract.rhythm.everyMonths);
    return edges.slice(0, -1).map((from, index) => {
      const until = edges[index + 1] ?? from;
      const wanted =
        contract.rhythm === null
          ? middleOf(from, until)
          : dayIn(from, until, contract.rhythm.onDay);
      return {
        year: year.number,
        ordinal: index + 1,
        from: from.toString(),
        until: until.toString(),
        ideal: nearestAllowed(wanted, { from, until }, year, isAllowed),
      };
    });
  });
}

function evenEdges({ from, visitsPerYear }: PromisedVisits, year: ContractYear): Day[] {
  const begins = Temporal.PlainDate.from(year.from);
  const days = daysBetween(begins, Temporal.PlainDate.from(year.until));
  const whole = daysBetween(begins, Temporal.PlainDate.from(from).add({ years: year.number }));
  const visits = Math.min(days, Math.ceil((visitsPerYear * days) / whole));
  if (visits === 0) return [];
  return Array.from({ length: visits + 1 }, (_, edge) =>
    begins.add({ days: Math.round((edge * days) / visits) }),
  );
}

/** Counted from the contract's first day, as far as the year goes; a piece at the end is a slot too. */
function monthlyEdges({ from }: PromisedVisits, year: ContractYear, everyMonths: number): Day[] {
  const first = Temporal.PlainDate.from(from);
  const end = Temporal.PlainDate.from(year.until);
  const edges: Day[] = [];
  for (let months = (year.number - 1) * 12; ; months += everyMonths) {
    const edge = first.add({ months });
    if (Temporal.PlainDate.compare(edge, end) >= 0) return [...edges, end];
    edges.push(edge);
  }
}

function middleOf(from: Day, until: Day): Day {
  return from.add({ days: Math.floor((daysBetween(from, until) - 1) / 2) });
}

/** The day of the month, or the month's last where it is shorter, as the slot has it; else the slot's last day. */
function dayIn(from: Day, until: Day, onDay: number): Day {
  const months = [0, 1].map((later) =>
    from.with({ day: 1 }).add({ months: later }).with({ day: onDay }),
  );
  const inside = months.find(
    (day) =>
      Temporal.PlainDate.compare(day, from) >= 0 && Temporal.PlainDate.compare(day, until) < 0,
  );
  return inside ?? until.subtract({ days: 1 });
}

/** In the slot if any day of it is allowed, else in the year; the earlier of two as near. */
function nearestAllowed(
  wanted: Day,
  slot: { from: Day; until: Day },
  year: ContractYear,
  isAllowed: (day: string) => boolean,
): string | null {
  const whole = {
    from: Temporal.PlainDate.from(year.from),
    until: Temporal.PlainDate.from(year.until),
  };
  return nearestIn(wanted, slot, isAllowed) ?? nearestIn(wanted, whole, isAllowed);
}

function nearestIn(
  wanted: Day,
  { from, until }: { from: Day; until: Day },
  isAllowed: (day: string) => boolean,
): string | null {
  const before = daysBetween(from, wanted);
  const after = daysBetween(wanted, until) - 1;
  for (let away = 0; away <= Math.max(before, after); away++) {
    for (const days of away === 0 ? [0] : [-away, away]) {
      if (days < -before || days > after) continue;
      const day = wanted.add({ days }).toString();
      if (isAllowed(day)) return day;
    }
  }
  return null;
}

function daysBetween(from: Day, until: Day): number {
  return from.until(until, { largestUnit: 'days' }).days;
}

function earlier(one: Day, other: Day): Day {
  return Temporal.PlainDate.compare(one, other) < 0 ? one : other;
}
