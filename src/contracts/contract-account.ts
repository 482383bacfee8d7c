import type {
  AccountLineDto,
  AccountYearDto,
  KeptPromisesDto,
  UsedPartDto,
} from './contract-account.dto.js';
import type { ContractKind } from './contract-kinds.js';
import { type ContractYear, contractYears } from './contract-year.js';
import { PROMISE_KINDS } from './contract-kinds.js';

/** What a site took in a year of a contract, as the database adds it up. */
export interface AccountRow extends Omit<AccountLineDto, 'parts'> {
  parts: { name: string; quantity: number }[];
}

/** How many tickets of a year stand how by a promise. */
export interface KeptRow {
  year: number;
  promise: string;
  state: string;
  count: number;
}

export interface Prices {
  currency: string;
  hourMinor: number;
  travelHourMinor: number;
  parts: readonly { name: string; minor: number }[];
}

interface PaidContract {
  from: string;
  until: string;
  kind: ContractKind;
  feeMinor: number;
  currency: string;
  callOutsPerYear: number | null;
}

/** What the contract took against what it brought, year by year. Amounts are rounded to whole minor units, each by itself. */
export function accountOf(
  contract: PaidContract,
  rows: readonly AccountRow[],
  kept: readonly KeptRow[],
  prices: Prices | null,
): { years: AccountYearDto[]; lines: AccountLineDto[] } {
  const own = prices?.currency === contract.currency ? prices : null;
  const lines = rows.map((row) => ({ ...row, parts: row.parts.map((part) => priced(part, own)) }));
  const years = contractYears(contract).map((year) =>
    yearOf(
      contract,
      year,
      lines.filter((line) => line.year === year.number),
      { kept: kept.filter((one) => one.year === year.number), prices: own },
    ),
  );
  return { years, lines };
}

function yearOf(
  contract: PaidContract,
  year: ContractYear,
  lines: readonly AccountLineDto[],
  { kept, prices }: { kept: readonly KeptRow[]; prices: Prices | null },
): AccountYearDto {
  const sum = (of: (line: AccountLineDto) => number) =>
    lines.reduce((total, line) => total + of(line), 0);
  const minutesOnSite = sum((line) => line.minutesOnSite);
  const travelMinutes = sum((line) => line.travelMinutes);
  const callOuts = sum((line) => line.callOuts);
  const included = shareOf(contract, year, contract.callOutsPerYear);
  const feeMinor = shareOf(contract, year, contract.feeMinor) ?? 0;
  const partsArePaidFor = contract.kind === 'labour-only';
  const labourMinor = prices && Math.round((minutesOnSite * prices.hourMinor) / 60);
  const travelMinor = prices && Math.round((travelMinutes * prices.travelHourMinor) / 60);
  const parts = lines.flatMap((line) => line.parts);
  const partsMinor = prices && parts.reduce((total, { minor }) => total + (minor ?? 0), 0);
  const costs = (labourMinor ?? 0) + (travelMinor ?? 0) + (partsArePaidFor ? 0 : (partsMinor ?? 0));
  return {
    year: year.number,
    from: year.from,
    until: year.until,
    feeMinor,
    callOuts,
    callOutsIncluded: included,
    callOutsBeyond: included === null ? 0 : Math.max(0, callOuts - included),
    minutesOnSite,
    travelMinutes,
    labourMinor,
    travelMinor,
    partsMinor,
    partsArePaidFor,
    unpricedParts: [
      ...new Set(parts.filter(({ minor }) => minor === null).map(({ name }) => name)),
    ].sort(),
    balanceMinor: prices && feeMinor - costs,
    kept: PROMISE_KINDS.map((promise) => keptOf(promise, kept)),
  };
}

/** A year that is cut short has its share by days, rounded up. */
function shareOf(contract: PaidContract, year: ContractYear, whole: number): number;
function shareOf(contract: PaidContract, year: ContractYear, whole: number | null): number | null;
function shareOf(
  { from }: PaidContract,
  { number, from: begins, until }: ContractYear,
  whole: number | null,
): number | null {
  if (whole === null) return null;
  const full = contractYears({ from, until: '9999-12-31' }, number).at(-1);
  if (full === undefined) return whole;
  return Math.ceil((whole * daysOf(begins, until)) / daysOf(full.from, full.until));
}

function daysOf(from: string, until: string): number {
  return (Date.parse(until) - Date.parse(from)) / 86_400_000;
}

function priced(
  { name, quantity }: { name: string; quantity: number },
  prices: Prices | null,
): UsedPartDto {
  const price = prices?.parts.find((one) => one.name.toLowerCase() === name.toLowerCase());
  return { name, quantity, minor: price === undefined ? null : Math.round(price.minor * quantity) };
}

function keptOf(promise: KeptPromisesDto['promise'], rows: readonly KeptRow[]): KeptPromisesDto {
  const count = (...states: string[]) =>
    rows
      .filter((row) => row.promise === promise && states.includes(row.state))
      .reduce((total, row) => total + row.count, 0);
  return {
    promise,
    met: count('met'),
    breached: count('breached'),
    open: count('running', 'paused'),
  };
}
