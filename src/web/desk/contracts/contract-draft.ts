import type { MakingContract, ReadContract } from '../../parts/wire.js';
import { dayBeside } from '../days/day-lanes.js';
import { major, minorOf } from './money.js';

export const TROUBLES = ['whole-site', 'whole-trunk', 'several-rooms', 'one-room'] as const;
export const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7] as const;

type Trouble = (typeof TROUBLES)[number];

/** What a contract's form has, as it is typed. */
export interface ContractDraft {
  title: string;
  clientId: string;
  siteIds: string[];
  from: string;
  /** The last day. */
  last: string;
  kind: ReadContract['kind'];
  visitsPerYear: string;
  callOutsPerYear: string;
  fee: string;
  currency: string;
  /** In hours, by class of trouble. */
  response: Partial<Record<Trouble, string>>;
  restore: Partial<Record<Trouble, string>>;
  /** By day of the week. */
  hoursFrom: Partial<Record<number, string>>;
  hoursUntil: Partial<Record<number, string>>;
  /** The hours are as they were: there are several in one day, which the form has no fields for. */
  keepsHours: boolean;
  calendarIds: string[];
  pausesForParts: boolean;
  exclusions: string;
  noticeDays: string;
}

const WORKDAYS = [1, 2, 3, 4, 5];
const onWorkdays = (time: string) => Object.fromEntries(WORKDAYS.map((day) => [day, time]));

export function newDraft(today: string): ContractDraft {
  return {
    title: '',
    clientId: '',
    siteIds: [],
    from: today,
    last: dayBeside(sameDayLater(today, 1), -1),
    kind: 'comprehensive',
    visitsPerYear: '2',
    callOutsPerYear: '',
    fee: '',
    currency: 'EUR',
    response: {},
    restore: {},
    hoursFrom: onWorkdays('08:00'),
    hoursUntil: onWorkdays('17:00'),
    keepsHours: false,
    calendarIds: [],
    pausesForParts: false,
    exclusions: '',
    noticeDays: '',
  };
}

/** The contract after this one: as long, and the same in everything that the form has. */
export function nextDraft(contract: ReadContract): ContractDraft {
  const { from, until } = contract;
  const days = (Date.parse(until) - Date.parse(from)) / 86_400_000;
  const years = Math.round(days / 365.25);
  const isYears = years > 0 && sameDayLater(from, years) === until;
  const ends = isYears ? sameDayLater(until, years) : dayBeside(until, days);
  return { ...draftOf(contract), from: until, last: dayBeside(ends, -1) };
}

/** A contract as it stands, to be corrected. */
export function draftOf(contract: ReadContract): ContractDraft {
  const { from, until, coverage, promises, currency } = contract;
  const hours = (minutes: number | null) => (minutes === null ? '' : String(minutes / 60));
  const byClass = (of: 'responseMinutes' | 'restoreMinutes') =>
    Object.fromEntries(promises.map((one) => [one.troubleClass, hours(one[of])]));
  const byDay = (of: 'from' | 'until') =>
    Object.fromEntries(coverage.windows.map((one) => [one.weekday, one[of]]));
  return {
    title: contract.title,
    clientId: contract.clientId,
    siteIds: contract.siteIds,
    from,
    last: dayBeside(until, -1),
    kind: contract.kind,
    visitsPerYear: String(contract.visitsPerYear),
    callOutsPerYear: `${contract.callOutsPerYear ?? ''}`,
    fee: String(major(contract.feeMinor, currency)),
    currency,
    response: byClass('responseMinutes'),
    restore: byClass('restoreMinutes'),
    hoursFrom: byDay('from'),
    hoursUntil: Object.fromEntries(
      Object.entries(byDay('until')).map(([day, until]) => [day, endShown(until)]),
    ),
    keepsHours: new Set(coverage.windows.map((one) => one.weekday)).size < coverage.windows.length,
    calendarIds: coverage.calendarIds,
    pausesForParts: contract.pausesForParts,
    exclusions: contract.exclusions ?? '',
    noticeDays: `${contract.noticeDays ?? ''}`,
  };
}

export interface PosedContract {
  body: Omit<MakingContract, 'id' | 'visitRhythm' | 'visitHours'>;
  /** Fields of the form by where the service's pointers into the body begin. */
  fieldAt: Readonly<Record<string, string>>;
}

/** The contract as it is sent; `before`: what the form does not have is as there. */
export function poseContract(draft: ContractDraft, before?: ReadContract): PosedContract {
  const promised = TROUBLES.filter(
    (one) => given(draft.response[one]) || given(draft.restore[one]),
  );
  const days = WEEKDAYS.filter(
    (day) => given(draft.hoursFrom[day]) || given(draft.hoursUntil[day]),
  );
  const coverage = before?.coverage ?? { zone: null, publicHolidays: null, closedDays: [] };
  const windows = days.map((weekday) => ({
    weekday,
    from: draft.hoursFrom[weekday]?.trim() ?? '',
    until: endPosed(draft.hoursUntil[weekday]?.trim() ?? ''),
  }));
  const { title, clientId, siteIds, from, kind, currency, calendarIds, pausesForParts } = draft;
  return {
    body: {
      title: title.trim(),
      clientId,
      siteIds,
      from,
      until: draft.last === '' ? '' : dayBeside(draft.last, 1),
      kind,
      visitsPerYear: wholeNumber(draft.visitsPerYear) ?? NaN,
      callOutsPerYear: wholeNumber(draft.callOutsPerYear),
      feeMinor: minorOf(draft.fee, currency.trim().toUpperCase()),
      currency: currency.trim().toUpperCase(),
      promises: promised.map((troubleClass) => ({
        troubleClass,
        responseMinutes: minutesOf(draft.response[troubleClass]) ?? NaN,
        restoreMinutes: minutesOf(draft.restore[troubleClass]),
      })),
      coverage: {
        ...coverage,
        calendarIds,
        windows: draft.keepsHours && before !== undefined ? before.coverage.windows : windows,
      },
      pausesForParts,
      exclusions: draft.exclusions.trim() || null,
      noticeDays: wholeNumber(draft.noticeDays),
    },
    fieldAt: {
      ...Object.fromEntries(
        promised.flatMap((one, index) => [
          [`response ${one}`, `/promises/${index}/responseMinutes`],
          [`restore ${one}`, `/promises/${index}/restoreMinutes`],
        ]),
      ),
      ...Object.fromEntries(
        days.flatMap((day, index) => [
          [`from ${day}`, `/coverage/windows/${index}/from`],
          [`until ${day}`, `/coverage/windows/${index}/until`],
        ]),
      ),
    },
  };
}

/** The end of a day as a field for times has it. */
function endShown(until: string): string {
  return until === '24:00' ? '00:00' : until;
}

/** Nothing ends before it begins: midnight is the end of the day. */
function endPosed(until: string): string {
  return until === '00:00' ? '24:00' : until;
}

function given(text: string | undefined): boolean {
  return (text ?? '').trim() !== '';
}

/** Null where nothing was written; NaN, which is refused, where it is no number. */
function wholeNumber(text: string): number | null {
  if (!given(text)) return null;
  return /^\d+$/.test(text.trim()) ? Number(text) : NaN;
}

function minutesOf(hours: string | undefined): number | null {
  if (!given(hours)) return null;
  return Math.round(Number((hours ?? '').trim().replace(',', '.')) * 60);
}

function sameDayLater(day: string, years: number): string {
  const [year = '', ...rest] = day.split('-');
  const later = [String(Number(year) + years), ...rest].join('-');
  // The last of February is not in every year.
  return Number.isNaN(Date.parse(later)) ? dayBeside(`${Number(year) + years}-03-01`, 0) : later;
}

/** JSON pointers of what should be a number and is not. */
export function findNotNumbers(value: unknown, at = ''): string[] {
  if (typeof value === 'number') return Number.isNaN(value) ? [at] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([name, inner]) => findNotNumbers(inner, `${at}/${name}`));
}
