import { readFileSync } from 'node:fs';

import type { AsBuilt, HeadEnd } from '#app/sites/as-built.js';
import type { FunctionName, InformantKind, Outcome, Place } from '#app/locator/index.js';
import { drawSheet, readCsv } from '#app/sheets/sheet-read.js';
import { readTable } from '#app/sheets/sheet-table.js';

export interface SeedSite extends Record<string, unknown> {
  key: string;
  id: string;
  clientId: string;
  name: string;
  headEnd: HeadEnd;
  trunks: { trunk: string; name: string; port: string }[];
  /** Path of its sheet, in seeds/. */
  sheet: string;
}

export interface SeedTicket {
  key: string;
  id: string;
  siteKey: string;
  daysAgo: number;
  /** Time of day at the site; left out: just now. */
  time?: string;
  saidBy: { name: string; kind: InformantKind };
  how: 'gone-through' | 'volunteered';
  observations: {
    trunk: string;
    node: string;
    function: FunctionName;
    outcome: Outcome | 'not-checked';
  }[];
  answers: { question: string; answer: string }[];
  finding?: { place: Place; component: string; mode: string };
  nothingFound?: true;
  /** Which of the firm's people found and mended it. */
  by?: string;
  pause?: { reason: string };
  mending?: { kind: 'lasting' | 'temporary'; followUpInDays?: number };
  walkTest?: 'all-work';
  closed: boolean;
}

export interface SeedVisit extends Record<string, unknown> {
  key: string;
  id: string;
  siteKey: string;
  daysAgo: number;
  technicianId: string | null;
  ticketKeys: string[];
  moves: { to: string; time: string; by: string }[];
  signature?: { name: string; drawn?: string };
  readings: {
    time: string;
    kind: string;
    trunk?: string;
    node?: string;
    entered: string;
    takenBy: string;
  }[];
}

export interface SeedRow extends Record<string, unknown> {
  id: string;
  name: string;
}

export function readSeed<T>(name: string): T {
  return JSON.parse(readFileSync(`seeds/${name}.json`, 'utf8')) as T;
}

export function sheetBytes({ sheet }: SeedSite): Uint8Array {
  return readFileSync(`seeds/${sheet}`);
}

/** What the site's sheet makes of its head-end and its empty trunks. */
export function readDrawing(site: SeedSite): AsBuilt {
  const trunks = site.trunks.map((trunk) => ({ ...trunk, nodes: [] }));
  const csv = readCsv(sheetBytes(site));
  if (!('records' in csv)) throw new Error(`${site.sheet}: ${JSON.stringify(csv.errors)}`);
  const table = readTable(csv);
  if (!('header' in table)) throw new Error(`${site.sheet}: ${JSON.stringify(table.errors)}`);
  const reading = drawSheet(table, { headEnd: site.headEnd, trunks });
  if ('errors' in reading) throw new Error(`${site.sheet}: ${JSON.stringify(reading.errors)}`);
  return reading.asBuilt;
}
