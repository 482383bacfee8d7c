import { AsyncLocalStorage } from 'node:async_hooks';
import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { Clock } from '../shared/clock.js';
import { ConflictError } from '../shared/domain-error.js';
import { FirmTransaction } from './firm-transaction.js';
import { SafeRepeatRepository } from './safe-repeat.repository.js';

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i;

/**
 * How long an answer is kept for its repeat: longer than any page stays offline and tries again.
 * Sent again later, the same id is a conflict where what it made is still there.
 */
const KEPT_MS = 30 * 24 * 60 * 60_000;

/** In one statement of the job that forgets them. */
const FORGOTTEN_AT_ONCE = 5000;

/** A request that answers after its commit; `kept` is there once its id was claimed. */
interface InParts {
  kept?: { id: string; isFinished: boolean };
}

const askedInParts = new AsyncLocalStorage<InParts>();

/**
 * A POST that brings its own id may be sent again (offline pages retry): the same content is
 * answered as the first time, other content is a conflict. Runs inside the request's transaction,
 * so the claim on the id and what the request did are kept or lost together.
 */
@Injectable()
export class SafeRepeatService {
  constructor(
    private readonly repository: SafeRepeatRepository,
    private readonly transaction: FirmTransaction,
    private readonly clock: Clock,
  ) {}

  /** What is answered in it may be finished after its commit, by `finish`. */
  inParts<T>(work: () => Promise<T>): Promise<T> {
    return askedInParts.run({}, work);
  }

  /** The answer of the work, or what it answered the same sender the first time. */
  async answerOnce<T>(
    { method, body, url }: FastifyRequest,
    sender: string,
    work: () => Promise<T>,
  ): Promise<T> {
    const id = (body as { id?: unknown } | undefined)?.id;
    if (method !== 'POST' || typeof id !== 'string' || !UUID.test(id)) return work();
    const contentHash = createHash('sha256').update(canonicalJson(body)).digest('base64url');
    const route = url.split('?')[0] ?? '';
    const asked = askedInParts.getStore();
    const claimed = { id, sender, route, contentHash };
    const earlier = await this.repository.claim(claimed, this.clock.now());
    if (earlier === undefined) {
      const answer = await work();
      const isFinished = asked === undefined;
      this.repository.keepAnswer(id, JSON.stringify(answer ?? null), isFinished);
      if (asked !== undefined) asked.kept = { id, isFinished };
      return answer;
    }
    const isOthers = earlier.sender !== null && earlier.sender !== sender;
    if (isOthers || earlier.route !== route || earlier.contentHash !== contentHash) {
      throw new ConflictError(`The id ${id} was already used for something else.`, { id });
    }
    if (asked !== undefined) asked.kept = { id, isFinished: earlier.isFinished };
    return JSON.parse(earlier.answer ?? 'null') as T;
  }

  /** A change, and after its commit what is still to be worked out for the answer. */
  async inTwo<Base, Answer>(
    change: () => Promise<Base>,
    complete: (base: Base) => Promise<Answer>,
  ): Promise<Answer> {
    const base = await this.transaction.write(change);
    if (this.isFinished()) return base as unknown as Answer;
    const answer = await complete(base);
    if (askedInParts.getStore()?.kept !== undefined)
      await this.transaction.writeAfterwards(() => this.finish(answer));
    return answer;
  }

  /** Whether what was answered is the whole answer of the first time: then there is nothing to add. */
  isFinished(): boolean {
    return askedInParts.getStore()?.kept?.isFinished ?? false;
  }

  /** Keeps the whole answer for a repeat; within a transaction. */
  finish(answer: unknown): void {
    const kept = askedInParts.getStore()?.kept;
    if (kept !== undefined) this.repository.keepAnswer(kept.id, JSON.stringify(answer), true);
  }

  /** Forgets what the firm was sent more than 30 days ago; within its transaction. */
  async forgetOld(): Promise<void> {
    const before = new Date(this.clock.now().getTime() - KEPT_MS);
    while ((await this.repository.forgetBefore(before, FORGOTTEN_AT_ONCE)) === FORGOTTEN_AT_ONCE);
  }
}

/** JSON with its members sorted: the same content in another order is the same content. */
function canonicalJson(value: unknown): string {
  return JSON.stringify(value, (_key, member: unknown) =>
    typeof member === 'object' && member !== null && !Array.isArray(member)
      ? Object.fromEntries(Object.entries(member).sort(([a], [b]) => (a < b ? -1 : 1)))
      : member,
  );
}
