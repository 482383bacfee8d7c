import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { Clock } from '../shared/clock.js';
import { ConflictError } from '../shared/domain-error.js';
import { SafeRepeatRepository } from './safe-repeat.repository.js';

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i;

/**
 * How long an answer is kept for its repeat: longer than any page stays offline and tries again.
 * Sent again later, the same id is a conflict where what it made is still there.
 */
const KEPT_MS = 30 * 24 * 60 * 60_000;

/** Each new request forgets more than one, so that what is kept shrinks to the last 30 days. */
const FORGOTTEN_AT_ONCE = 100;

/**
 * A POST that brings its own id may be sent again (offline pages retry): the same content is
 * answered as the first time, other content is a conflict. Runs inside the request's transaction,
 * so the claim on the id and what the request did are kept or lost together.
 */
@Injectable()
export class SafeRepeatService {
  constructor(
    private readonly repository: SafeRepeatRepository,
    private readonly clock: Clock,
  ) {}

  /** The answer of the work, or what it answered the same sender the first time. */
  async answerOnce(
    { method, body, url }: FastifyRequest,
    sender: string,
    work: () => Promise<unknown>,
  ): Promise<unknown> {
    const id = (body as { id?: unknown } | undefined)?.id;
    if (method !== 'POST' || typeof id !== 'string' || !UUID.test(id)) return work();
    const contentHash = createHash('sha256').update(canonicalJson(body)).digest('base64url');
    const route = url.split('?')[0] ?? '';
    const now = this.clock.now();
    await this.repository.forgetBefore(new Date(now.getTime() - KEPT_MS), FORGOTTEN_AT_ONCE);
    const earlier = await this.repository.claim({ id, sender, route, contentHash }, now);
    if (earlier === undefined) {
      const answer = await work();
      await this.repository.keepAnswer(id, JSON.stringify(answer ?? null));
      return answer;
    }
    const isOthers = earlier.sender !== null && earlier.sender !== sender;
    if (isOthers || earlier.route !== route || earlier.contentHash !== contentHash) {
      throw new ConflictError(`The id ${id} was already used for something else.`, { id });
    }
    return JSON.parse(earlier.answer ?? 'null');
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
