import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { codeDigest } from '../compute/code-digest.js';
import { ComputeService, type SameQuestion } from '../compute/compute.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { HistoryService } from '../history/history.service.js';
import { BusyError, NotFoundError } from '../shared/domain-error.js';
import { currentLanguage } from '../shared/request-language.js';
import { WrittenAnswer } from '../shared/written-answer.js';
import { SitesService } from '../sites/sites.service.js';
import { DEFAULT_LANGUAGE } from '../words/index.js';
import { AnswersNotWanted } from './answers-not-wanted.js';
import { Beginnings } from './beginnings.js';
import { LatelyLocated } from './lately-located.js';
import { type LocatedInJson, type ToldAtOnce } from './locate-ticket.js';
import {
  asInvalidInput,
  assertDrawn,
  CHECK_TICKET,
  isRefused,
  LOCATE_TICKET,
} from './locating-tasks.js';
import type { TicketQuestion } from './ticket-facts.js';
import { type KeptLocation, TicketFactsRepository } from './ticket-facts.repository.js';

/** Folders whose code a location depends on. */
const CODE = [
  'plan',
  'drawing',
  'locator',
  'locating',
  'history',
  'statistics',
  'reports',
  'readings',
  'looks',
  'sites',
  'words',
];

const codeInUse = codeDigest(CODE.map((folder) => new URL(`../${folder}/`, import.meta.url)));

export const NOTHING_TOLD: ToldAtOnce = { officeChecks: [], contradictions: [] };

/** What was read, whoever asks and in whatever language. */
interface ReadQuestion {
  firmId: string;
  question: Omit<TicketQuestion, 'language'>;
  fingerprint: string;
  readAt: Date;
  /** What was worked out last, whatever of. */
  kept: KeptLocation | null;
}

export interface AskedTicket extends Omit<ReadQuestion, 'question'> {
  question: TicketQuestion;
  /** Of the fingerprint, the firm and the language: all that an answer depends on. */
  key: string;
}

/** Works out where a ticket's trouble lies, from its drawing, its observations and the site's record. */
@Injectable()
export class LocationService {
  private readonly lately = new LatelyLocated();
  private readonly beginnings = new Beginnings();
  private readonly notWanted = new AnswersNotWanted((key) => this.lately.get(key) !== undefined);
  /** Of those that were worked out lately, or read together, for all who ask. */
  private readonly written = new WeakMap<LocatedInJson | KeptLocation, WrittenAnswer>();

  constructor(
    private readonly facts: TicketFactsRepository,
    private readonly sites: SitesService,
    private readonly history: HistoryService,
    private readonly compute: ComputeService,
    private readonly transaction: FirmTransaction,
  ) {}

  /** The answer in JSON; see `LocationDto`. */
  async locate(ticketId: string): Promise<WrittenAnswer> {
    const asked = await this.readTogether(ticketId);
    assertDrawn(asked.question);
    try {
      const { kept } = asked;
      const answer = keptAnswer(asked);
      if (kept !== null && answer !== null) return this.write(kept, answer);
      const located = await this.workOut(asked);
      return this.write(located, located.answer);
    } catch (error) {
      throw asInvalidInput(error);
    }
  }

  /** What the office can do now, and who contradicts whom; nothing where there is no time for it. */
  async toldAtOnce(ticketId: string): Promise<ToldAtOnce> {
    const asked = await this.readTogether(ticketId);
    try {
      return await this.told(asked);
    } catch (error) {
      if (error instanceof BusyError) return NOTHING_TOLD;
      throw error;
    }
  }

  /** The same of what was read; nothing where the evidence is more than the locator takes, or contradicts itself. */
  async told(asked: AskedTicket): Promise<ToldAtOnce> {
    const whole = keptAnswer(asked) ?? this.lately.get(asked.key)?.answer;
    if (isCurrent(asked) && whole !== undefined) {
      const officeChecks = JSON.parse(asked.kept.officeChecks) as ToldAtOnce['officeChecks'];
      const { contradictions } = JSON.parse(whole) as Pick<ToldAtOnce, 'contradictions'>;
      // Whose one word goes badly with all the rest is for whoever sees all the rest.
      return { officeChecks, contradictions: contradictions.filter(({ given }) => given === null) };
    }
    const told = await unlessRefused(
      this.compute.run(CHECK_TICKET, asked.question, { key: asked.key }),
    );
    return told === null ? NOTHING_TOLD : (JSON.parse(told) as ToldAtOnce);
  }

  /** What is thought of a ticket, in JSON; null where the locator refuses the evidence. */
  async thought(ticketId: string): Promise<Pick<LocatedInJson, 'answer' | 'predicted'> | null> {
    const asked = await this.readTogether(ticketId);
    const answer = keptAnswer(asked);
    if (answer !== null && asked.kept !== null) return { answer, predicted: asked.kept.predicted };
    return unlessRefused(this.workOut(asked));
  }

  /** Within a transaction: all that a ticket's location depends on, and what was kept of it. */
  async read(ticketId: string): Promise<AskedTicket> {
    return asAsked(await this.readQuestion(ticketId));
  }

  private async readTogether(ticketId: string): Promise<AskedTicket> {
    const read = () => this.readQuestion(ticketId);
    return asAsked(await this.transaction.readTogether(`location of ${ticketId}`, read));
  }

  private async readQuestion(ticketId: string): Promise<ReadQuestion> {
    const found = await this.facts.read(ticketId, this.notWanted.of(ticketId));
    if (found === null) throw new NotFoundError('ticket', ticketId);
    const { ticket, texts, readAt, kept } = found;
    const drawing = await this.sites.drawing(ticket.siteId, ticket.asBuiltVersion);
    const firmId = this.transaction.firmId();
    const ofTicket = digestOf({ ...texts, firmId, ticket: JSON.stringify(ticket) });
    const since = this.beginnings.of(ofTicket, { ticket, drawing, texts });
    const past = await this.history.pastOf(ticket.siteId, ticket.id, since);
    const fingerprint = digestOf({ ofTicket, ...past });
    if (kept !== null && kept.fingerprint !== fingerprint)
      this.notWanted.add(ticket.id, { over: kept.fingerprint });
    return {
      firmId,
      question: { ...texts, ticket, drawing, ...past },
      fingerprint,
      readAt,
      kept,
    };
  }

  async workOut(asked: AskedTicket): Promise<LocatedInJson> {
    const { question, key } = asked;
    const known = this.lately.get(key);
    if (known !== undefined) return known;
    const located = await this.compute.run(LOCATE_TICKET, question, this.same(key));
    this.keepAtHand(asked, located);
    return located;
  }

  /** For a job. Null where the evidence is more than the locator takes, or contradicts itself altogether. */
  async keepable(asked: AskedTicket): Promise<LocatedInJson | null> {
    const { question, key } = asked;
    const work = this.compute.runJob(LOCATE_TICKET, question, this.same(key));
    const located = await unlessRefused(work);
    if (located !== null) this.keepAtHand(asked, located);
    return located;
  }

  private keepAtHand({ question, fingerprint, key }: AskedTicket, located: LocatedInJson): void {
    this.lately.add(key, located);
    const atHand = { fingerprint, key };
    if (isKept(question)) this.notWanted.add(question.ticket.id, { atHand });
  }

  private write(of: LocatedInJson | KeptLocation, answer: string): WrittenAnswer {
    const written = this.written.get(of) ?? new WrittenAnswer(answer);
    this.written.set(of, written);
    return written;
  }

  private same(key: string): SameQuestion<LocatedInJson> {
    return { key, known: () => this.lately.get(key) };
  }
}

async function unlessRefused<T>(work: Promise<T>): Promise<T | null> {
  try {
    return await work;
  } catch (error) {
    if (isRefused(error)) return null;
    throw error;
  }
}

/** By whoever asks now. */
function asAsked({ question, ...read }: ReadQuestion): AskedTicket {
  const language = currentLanguage();
  const key = [read.firmId, language, read.fingerprint].join(' ');
  return { ...read, question: { ...question, language }, key };
}

/** Whether what was kept, in one language, is still the answer. */
export function isCurrent(asked: AskedTicket): asked is AskedTicket & { kept: KeptLocation } {
  return asked.kept?.fingerprint === asked.fingerprint && isKept(asked.question);
}

/** What is worked out is kept in one language; the others are few, and worked out when they are asked for. */
export function isKept({ language }: Pick<TicketQuestion, 'language'>): boolean {
  return language === DEFAULT_LANGUAGE;
}

function keptAnswer(asked: AskedTicket): string | null {
  return isCurrent(asked) ? asked.kept.answer : null;
}

/**
 * Of texts by their names. The drawing is named by its site and version, which are of the ticket, and the facts are the same in
 * every language; each text goes in as it is, for together they may be megabytes.
 */
function digestOf(texts: Readonly<Record<string, string>>): string {
  const hash = createHash('sha256').update(codeInUse);
  for (const [name, text] of Object.entries(texts))
    hash.update(`${name} ${text.length} `).update(text);
  return hash.digest('base64url');
}
