import type { Place } from '../locator/index.js';
import { DEFAULT_PLAN } from '../plan/default-plan.js';
import type { InformantKind } from '../plan/error-rates.js';
import type { FunctionName } from '../plan/functions.js';
import { missedChance } from '../plan/look-errors.js';
import type { AsBuilt } from '../sites/as-built.js';
import { siteExposure } from './exposure.js';
import { quietChance } from './quiet-chance.js';
import {
  componentKey,
  componentsOf,
  type Found,
  foundBy,
  placeParts,
  type WorkEntry,
} from './work-done.js';

/** A closed ticket as far as it teaches anything. */
export interface ClosedTicket {
  id: string;
  siteId: string;
  asBuiltVersion: number;
  openedAt: Date;
  closedAt: Date;
  /** What was found and mended, in the order in which it was recorded. */
  entries: readonly WorkEntry[];
  /** What was said not to work, each once. */
  points: readonly { trunk: string; node: string; function: FunctionName }[];
  /** Its own and those on visits to it, none withdrawn. */
  looks: readonly PastLook[];
}

export interface PastLook {
  place: Place;
  part: string;
  seen: 'sound' | 'faulty';
  saidByKind: InformantKind;
  lookedAt: Date;
}

/** How often a component failed in one mode. */
export interface Repair {
  /** See `componentKey`. */
  component: string;
  mode: string;
  events: number;
}

/** Looks at what was broken then: how many did not see it, how many did. */
export type LookCounts = Record<InformantKind, { missed: number; seen: number }>;

/** What one closed ticket teaches of rates, of calls and of looks. */
export interface TicketExperience {
  id: string;
  siteId: string;
  closedAt: Date;
  /** Places that were found at fault and mended. */
  mended: number;
  /** In the order in which they were mended. A finding counts once, spread where it was uncertain. */
  repairs: Repair[];
  /** Null: no call that teaches anything, because nothing was said not to work or nobody said what was found. */
  isFound: boolean | null;
  /** The chance, before anything was said, that all is well that was complained of; null where `isFound` is. */
  quiet: number | null;
  /** Null: no look at what was broken. */
  looks: LookCounts | null;
}

/** By the drawing that the ticket names: what was drawn later does not change what it teaches. */
export function ticketExperience(ticket: ClosedTicket, asBuilt: AsBuilt): TicketExperience {
  const { id, siteId, closedAt, entries, points, openedAt } = ticket;
  const found = foundBy(entries);
  const mended = found.filter(({ mending }) => mending !== null);
  const isCall = points.length > 0 && entries.length > 0;
  return {
    id,
    siteId,
    closedAt,
    mended: mended.length,
    repairs: repairsOf(mended),
    isFound: isCall ? entries.some(isSomething) : null,
    quiet: isCall ? quietChance(asBuilt, points, siteExposure(asBuilt, openedAt).days) : null,
    looks: countLooks(ticket.looks, found),
  };
}

function isSomething({ kind, details }: WorkEntry): boolean {
  return kind === 'mending' || details.place != null;
}

function repairsOf(mended: readonly Found[]): Repair[] {
  const repairs = new Map<string, Repair>();
  for (const { place, shares } of mended)
    for (const { component, mode, events } of shares) {
      const [part] = componentsOf(place).filter((one) => one.component === component);
      if (part === undefined) continue;
      const repair = { component: componentKey(part), mode, events: 0 };
      const key = `${repair.component} ${mode}`;
      const known = repairs.get(key) ?? repair;
      known.events += events;
      repairs.set(key, known);
    }
  return [...repairs.values()];
}

/** Of looks at parts that are missed no more often than others: a cable or a bad joint says little of who looks. */
function countLooks(looks: readonly PastLook[], found: readonly Found[]): LookCounts | null {
  const counts = { office: { missed: 0, seen: 0 }, technician: { missed: 0, seen: 0 } };
  const telling = looks.filter((look) => found.some((one) => isAbout(look, one)));
  if (telling.length === 0) return null;
  for (const { saidByKind, seen } of telling)
    counts[saidByKind][seen === 'sound' ? 'missed' : 'seen'] += 1;
  return counts;
}

/** What was looked at was found faulty then or later on the same ticket, and mended. */
function isAbout(look: PastLook, found: Found): boolean {
  if (found.mendedAt === null || found.mode === null) return false;
  if (look.lookedAt > found.mendedAt) return false;
  if (placeParts(found.place).join('\n') !== placeParts(look.place).join('\n')) return false;
  if (look.place.kind === 'span' && look.part !== found.component) return false;
  const usual = DEFAULT_PLAN.looks[look.saidByKind].missed;
  return missedChance(DEFAULT_PLAN, look.saidByKind, look.part, found.mode) === usual;
}
