import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** What the files under seeds/ hold; seeds/README.md says how days and names are to be read. */
export interface Seeds {
  firm: { name: string };
  people: { id: string; name: string; work: string }[];
  workingTimes: ({ personId: string } & Record<string, unknown>)[];
  vans: { personId: string; parts: { name: string; quantity: number }[] }[];
  clients: { id: string; name: string }[];
  sites: SeedSite[];
  visits: SeedVisit[];
  tickets: SeedTicket[];
  contracts: {
    calendars: { id: string; name: string; times: SeedClosedTime[] }[];
    contracts: SeedContract[];
    prices: Record<string, unknown>;
  };
}

export interface SeedClosedTime {
  fromDaysAgo: number;
  days: number;
  name: string;
}

export interface SeedContract extends Record<string, unknown> {
  id: string;
  siteKeys: string[];
  fromDaysAgo: number;
  days: number;
  coverage: { closedDays?: SeedClosedTime[] } & Record<string, unknown>;
  /** The contract that follows it. */
  renewal?: Record<string, unknown>;
}

export interface SeedSite extends Record<string, unknown> {
  key: string;
  id: string;
  name: string;
  zone: string;
  headEnd: Record<string, unknown>;
  trunks: { trunk: string; name: string; port: string | null }[];
  /** Path of its as-built sheet. */
  sheet: string;
}

export interface SeedTicket {
  key: string;
  siteKey: string;
  daysAgo: number;
  /** Time of day at the site; left out: just now. */
  time?: string;
  saidBy: { name: string; kind: 'office' | 'technician' };
  how: 'gone-through' | 'volunteered';
  observations: { trunk: string; node: string; function: string; outcome: string }[];
  note?: string;
  answers: { question: string; answer: string }[];
  finding?: Record<string, unknown>;
  nothingFound?: true;
  /** Who of the firm found and mended it. */
  by?: string;
  mending?: { kind: string; minutes: number; followUpInDays?: number } & Record<string, unknown>;
  /** The clock was stopped so many minutes after the report, for so many. */
  pause?: { minutesAfter: number; minutes: number; reason: string; evidence: string };
  troubleClass?: { troubleClass: string; reason: string };
  /** Why a promise was not kept, where one was not. */
  breachCause?: string;
  walkTest?: 'all-work';
  closed: boolean;
}

export interface SeedVisit extends Record<string, unknown> {
  siteKey: string;
  daysAgo: number;
  ticketKeys: string[];
  moves: ({ time: string } & Record<string, unknown>)[];
  readings: ({ time: string } & Record<string, unknown>)[];
  /** It was planned for another day, and perhaps another technician, and moved. */
  moved?: { fromDaysAgo: number; reason: string; technicianId: string };
  /** Who of the site signed for it when it ended, on the technician's phone. */
  signature?: { name: string; remark?: string; drawn?: string };
  /** A walk test at its end: of every room, or of the first half of them. */
  heard?: 'all' | 'half';
}

/** The ticket that the demo opens before your eyes. */
export const MAIN_JOB = 'main-job';

export function readSeeds(directory: string): Seeds {
  const read = <T>(name: string): T =>
    JSON.parse(readFileSync(join(directory, `${name}.json`), 'utf8')) as T;
  return {
    firm: read('firm'),
    people: read('people'),
    workingTimes: read('working-times'),
    vans: read('vans'),
    clients: read('clients'),
    sites: read('sites'),
    visits: read('visits'),
    tickets: read('tickets'),
    contracts: read('contracts'),
  };
}

/** A site's as-built sheet, as the bytes of the file. */
export function readSeedSheet(directory: string, { sheet }: SeedSite): Buffer {
  return readFileSync(join(directory, sheet));
}
