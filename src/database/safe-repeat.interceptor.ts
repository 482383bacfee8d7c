import { createHash } from 'node:crypto';
import {
  type CallHandler,
  type ExecutionContext,
  Injectable,
  type NestInterceptor,
} from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { from, lastValueFrom, type Observable } from 'rxjs';
import { ConflictError } from '../shared/domain-error.js';
import { FirmTransaction } from './firm-transaction.js';
import { SafeRepeatRepository } from './safe-repeat.repository.js';

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i;

/**
 * A POST that brings its own id may be sent again (offline pages retry): the same content is
 * answered as the first time, other content is a conflict. Runs inside the request's transaction,
 * so the claim on the id and what the request did are kept or lost together.
 */
@Injectable()
export class SafeRepeatInterceptor implements NestInterceptor {
  constructor(
    private readonly repository: SafeRepeatRepository,
    private readonly transaction: FirmTransaction,
  ) {}

  intercept(context: ExecutionContext, next: CallHandler): Observable<unknown> {
    const request = context.switchToHttp().getRequest<FastifyRequest>();
    const id = (request.body as { id?: unknown } | undefined)?.id;
    const repeatable = request.method === 'POST' && this.transaction.isOpen();
    if (!repeatable || typeof id !== 'string' || !UUID.test(id)) return next.handle();
    return from(this.answerOnce(id, request, next));
  }

  private async answerOnce(
    id: string,
    request: FastifyRequest,
    next: CallHandler,
  ): Promise<unknown> {
    const contentHash = createHash('sha256')
      .update(canonicalJson(request.body))
      .digest('base64url');
    const route = request.url.split('?')[0] ?? '';
    const earlier = await this.repository.claim(id, route, contentHash);
    if (earlier === undefined) {
      const answer: unknown = await lastValueFrom(next.handle(), { defaultValue: undefined });
      await this.repository.keepAnswer(id, JSON.stringify(answer ?? null));
      return answer;
    }
    if (earlier.route !== route || earlier.contentHash !== contentHash) {
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
