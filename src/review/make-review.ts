import { Temporal } from 'temporal-polyfill';
import { PROMISE_KINDS } from '../contracts/contract-kinds.js';
import type { Place } from '../drawing/drawn-node.js';
import type { ComponentName } from '../locator/index.js';
import { calendarOf, clockOf, type TicketClock } from '../promises/ticket-clock.js';
import { courseOf } from '../promises/ticket-course.js';
import { toClockDto } from '../promises/told-clock.js';
import { nameNodesOf } from '../sites/drawing.js';
import { clockWordsIn } from '../words/clock-words-in.js';
import { type Words, wordsIn } from '../words/index.js';
import { advisedJoints } from './advice.js';
import { reliabilityFigures } from './reliability-figures.js';
import type {
  FunctionHoursDto,
  ReviewDto,
  ReviewFoundDto,
  ReviewMendedDto,
  ReviewPromiseDto,
  ReviewTicketDto,
} from './review.dto.js';
import type { ReviewedSite, ReviewedTicket, ReviewQuestion } from './review-question.js';
import { roomHours, type SilentTicket } from './room-hours.js';

const HOUR_MS = 3_600_000;
const MINUTE_MS = 60_000;

/** A year of a contract as a client is shown it. Throws {@link StatisticsError} for a prior that fits no gamma. */
export function makeReview(question: ReviewQuestion): ReviewDto {
  const { contract, year, sites, tickets, costs } = question;
  const words = wordsIn(question.language);
  const clocks = question.clocks
    .map(clockOf)
    .filter(({ contractId }) => contractId === contract.id);
  const ofYear = tickets.filter(({ isOfYear }) => isOfYear);
  const until = Math.min(question.now, ...sites.map(({ zone }) => startOf(year.until, zone)));
  const restored = clocks.map(hoursToRestore).filter((hours) => hours !== null);
  const prices = costs.prices?.currency === contract.currency ? costs.prices : null;
  const told = ofYear.flatMap((ticket) => {
    const clock = clocks.find(({ ticketId }) => ticketId === ticket.ticketId);
    return clock === undefined ? [] : tellTicket(question, ticket, clock, words);
  });
  return {
    contractId: contract.id,
    title: contract.title,
    clientName: contract.clientName,
    currency: contract.currency,
    year: year.number,
    from: year.from,
    until: year.until,
    coveredHours: contract.coverage.windows.map(({ weekday, from, until }) => ({
      weekday,
      from,
      until,
    })),
    asOf: new Date(question.now),
    sites: sites.map(({ siteId, name }) => ({ siteId, name })),
    promisedVisits: question.promisedVisits.items.map((slot) => {
      const { siteId, standing, visitOn } = slot;
      return { siteId, from: slot.from, until: slot.until, standing, visitOn };
    }),
    visits: question.visits.map(({ signatures, ...visit }) => ({
      ...visit,
      signatures: signatures.map((one) => ({ ...one, signedAt: new Date(one.signedAt) })),
    })),
    tickets: told,
    ticketsElsewhere: ofYear.length - told.length,
    promises: PROMISE_KINDS.map((promise) => keptOf(promise, clocks)),
    availability: sites.flatMap((site) => availabilityAt(site, question)),
    reliability: reliabilityFigures(
      question,
      until,
      restored.length === 0 ? null : restored.reduce((a, b) => a + b, 0) / restored.length,
    ),
    advised: advisedJoints(sites, question.rates, { ...costs, prices }, words),
    unfinished: tickets
      .filter(({ state }) => state === 'bridged')
      .map(({ number, siteId, followUpDueOn }) => ({ number, siteId, dueOn: followUpDueOn })),
  };
}

function startOf(day: string, zone: string): number {
  return Temporal.PlainDate.from(day).toZonedDateTime(zone).epochMilliseconds;
}

function hoursToRestore({ promises, reportedAt }: TicketClock): number | null {
  const doneAt = promises.find(({ promise }) => promise === 'restore')?.doneAt ?? null;
  return doneAt === null ? null : Math.max(0, doneAt - reportedAt) / HOUR_MS;
}

function keptOf(
  promise: ReviewPromiseDto['promise'],
  clocks: readonly TicketClock[],
): ReviewPromiseDto {
  const own = clocks.flatMap(({ promises }) => promises.filter((one) => one.promise === promise));
  const count = (...states: string[]) => own.filter(({ state }) => states.includes(state)).length;
  const done = own.filter(({ doneAt }) => doneAt !== null);
  const takenMs = done.reduce((sum, one) => sum + one.takenMs, 0);
  return {
    promise,
    met: count('met'),
    breached: count('breached'),
    open: count('running', 'paused'),
    meanMinutesTaken: done.length === 0 ? null : takenMs / done.length / MINUTE_MS,
  };
}

function availabilityAt(site: ReviewedSite, question: ReviewQuestion): FunctionHoursDto[] {
  const { contract, calendars, year, now } = question;
  const zone = contract.coverage.zone ?? site.zone;
  const from = startOf(year.from, zone);
  const until = Math.max(from, Math.min(now, startOf(year.until, zone)));
  const calendar = calendarOf(contract.coverage, zone, { reportedAt: from, calendars });
  const own = question.tickets.filter(({ siteId }) => siteId === site.siteId).map(silentOf);
  return roomHours(site.asBuilt, own, calendar, { from, until }).map((hours) => ({
    siteId: site.siteId,
    ...hours,
    available: hours.roomHours === 0 ? null : 1 - hours.lostRoomHours / hours.roomHours,
  }));
}

function silentOf({ said, moves, closedAt }: ReviewedTicket): SilentTicket {
  const entries = moves.map(({ at, ...move }) => ({
    kind: 'move' as const,
    at: Date.parse(at),
    ...move,
  }));
  return {
    said: said.map((one) => ({ ...one, at: Date.parse(one.at) })),
    restoredAt: courseOf(entries, []).restoredAt,
    closedAt: closedAt === null ? null : Date.parse(closedAt),
  };
}

function tellTicket(
  { sites, language }: ReviewQuestion,
  { number, siteId, state, work }: ReviewedTicket,
  clock: TicketClock,
  words: Words,
): ReviewTicketDto[] {
  const site = sites.find((one) => one.siteId === siteId);
  if (site === undefined) return [];
  const found: ReviewFoundDto[] = [];
  const mended: ReviewMendedDto[] = [];
  for (const { kind, happenedAt, details } of work) {
    const at = new Date(happenedAt);
    if (kind === 'finding') {
      const { place = null, component = null, note = null } = details;
      const told = place && foundWords(place, component, site, words);
      found.push({ at, words: told, note });
    } else {
      const { mending = 'lasting', what = null, minutes = null, parts = [] } = details;
      mended.push({ at, mending, what, minutes, parts });
    }
  }
  const clockTold = toClockDto(clock, clockWordsIn(language));
  return [{ number, siteId, state, clock: clockTold, found, mended }];
}

function foundWords(
  place: Place,
  component: string | null,
  { asBuilt }: ReviewedSite,
  words: Words,
): string {
  const nameNode = nameNodesOf(asBuilt, words);
  const where = words.place(place, nameNode);
  if (component === null || place.kind === 'head-end') return where;
  return `${words.component(component as ComponentName, place, nameNode)}, ${where}`;
}
