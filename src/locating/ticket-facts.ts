import type { LearnedErrors } from '../history/learned-errors.js';
import type { LearnedAtSite } from '../history/learned-rates.js';
import type { PastTexts } from '../history/history.repository.js';
import type { HeardOnTicket } from '../history/proofs.js';
import type { NearbyWork } from '../history/touched-nearby.js';
import type { WorkEntry } from '../history/work-done.js';
import type { TakenLook } from '../looks/taken-look.js';
import type { ReadAbout } from '../readings/taken-reading.js';
import type { Heard } from '../reports/observation.js';
import type { LogEntry } from '../reports/office-questions.js';
import type { SupplyFigures } from '../readings/recorded-electrical.js';
import type { AsBuilt } from '../sites/as-built.js';
import type { Language } from '../words/index.js';
import type { EndedStep } from '../tickets/ticket-log.js';
import type { TicketState } from '../tickets/ticket-lifecycle.js';

/** What of a ticket its location depends on. */
export interface LocatedTicket {
  id: string;
  siteId: string;
  asBuiltVersion: number;
  state: TicketState;
  openedAt: Date;
  period: number;
}

/** Lists as JSON: they go to another thread, and this one need not read them. */
export interface TicketTexts {
  /** Observations, oldest first. */
  heard: string;
  /** Moves, answers, mendings and ended steps of the walk in its log, oldest first. */
  entries: string;
  /** Readings about the ticket, also those of visits to it, oldest first. */
  readings: string;
  /** Looks about the ticket, also those of visits to it, oldest first. */
  looks: string;
  /** What others did near parts of the site and was not withdrawn, oldest first. */
  nearby: string;
  /** What is learned of classes of components, as far as it is about the site. */
  rates: string;
  /** How often calls are about nothing and looks miss, by the firm's record; null where there is none. */
  errors: string;
  /** The supply as the site's current record says. */
  headEndNow: string;
}

/** All that is read of a ticket to work out where its trouble lies. */
export interface TicketQuestion extends TicketTexts, PastTexts {
  ticket: LocatedTicket;
  drawing: AsBuilt;
  /** Of the words beside the facts. */
  language: Language;
}

/** The same as it is reckoned with. */
export interface TicketFacts {
  ticket: LocatedTicket;
  drawing: AsBuilt;
  headEndNow: SupplyFigures;
  heard: Heard[];
  entries: LoggedEntry[];
  readings: ReadAbout[];
  looks: LookAbout[];
  heardBefore: HeardOnTicket[];
  work: WorkEntry[];
  nearby: NearbyWork[];
  rates: LearnedAtSite[];
  errors: LearnedErrors | null;
}

/** A row as far as it says something about a ticket: its own has its period, one of a visit the period it was made in. */
type LookAbout = Omit<TakenLook, 'period'> & { period: number | null };

export interface LoggedEntry extends LogEntry {
  details: LogEntry['details'] & { to?: string; step?: EndedStep };
}

type Written<Row> = { [Key in keyof Row]: Row[Key] extends Date ? string : Row[Key] };

export function readFacts(question: TicketQuestion): TicketFacts {
  return {
    ticket: question.ticket,
    drawing: question.drawing,
    headEndNow: JSON.parse(question.headEndNow) as SupplyFigures,
    heard: readHeard(question),
    entries: readEntries(question),
    readings: list<ReadAbout>(question.readings).map((one) => ({
      ...one,
      takenAt: new Date(one.takenAt),
    })),
    looks: list<LookAbout>(question.looks).map((one) => ({
      ...one,
      lookedAt: new Date(one.lookedAt),
    })),
    heardBefore: list<HeardOnTicket>(question.heardBefore).map((one) => ({
      ...one,
      observedAt: new Date(one.observedAt),
    })),
    work: list<WorkEntry>(question.work).map((one) => ({
      ...one,
      happenedAt: new Date(one.happenedAt),
    })),
    nearby: JSON.parse(question.nearby) as NearbyWork[],
    rates: JSON.parse(question.rates) as LearnedAtSite[],
    errors: JSON.parse(question.errors) as LearnedErrors | null,
  };
}

export function readHeard({ heard }: Pick<TicketTexts, 'heard'>): Heard[] {
  return list<Heard>(heard).map((one) => ({ ...one, observedAt: new Date(one.observedAt) }));
}

export function readEntries({ entries }: Pick<TicketTexts, 'entries'>): LoggedEntry[] {
  return list<LoggedEntry>(entries).map((one) => ({
    ...one,
    happenedAt: new Date(one.happenedAt),
  }));
}

/** When it was closed before it was taken up again; of a closed one, the time before. */
export function lastClosed(
  { state }: Pick<LocatedTicket, 'state'>,
  entries: readonly LoggedEntry[],
): Date | null {
  const closings = entries.filter(
    ({ kind, details }) => kind === 'move' && details.to === 'closed',
  );
  return closings.at(state === 'closed' ? -2 : -1)?.happenedAt ?? null;
}

function list<Row>(text: string): Written<Row>[] {
  return JSON.parse(text) as Written<Row>[];
}
