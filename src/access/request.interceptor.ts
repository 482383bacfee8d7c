import {
  type CallHandler,
  type ExecutionContext,
  Injectable,
  type NestInterceptor,
} from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Reflector } from '@nestjs/core';
import { lastValueFrom, type Observable, of } from 'rxjs';
import { ComputeService } from '../compute/compute.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { Mode, OpenTransaction } from '../database/open-transaction.js';
import { SafeRepeatService } from '../database/safe-repeat.service.js';
import { InParts } from '../shared/in-parts.decorator.js';
import type { Principal } from '../people/principal.js';
import { routeKey } from '../shared/route-key.js';
import { underOwnName } from './own-name.js';
import { targetOf } from '../audit/audited-request.js';
import { AuditService } from '../audit/audit.service.js';
import { auditedRequest } from '../audit/audited.decorator.js';

declare module 'fastify' {
  interface FastifyRequest {
    /** The firm's transaction that the guard entered; open routes have none. */
    transaction?: OpenTransaction;
  }
}

/**
 * What every change that the guard let through runs in: its firm's transaction, so that no answer
 * leaves before the commit; and inside of it the check for a repeat and the record.
 * A route in parts opens its transactions itself. Other reads come by here no more (`guard-routes.ts`).
 */
@Injectable()
export class RequestInterceptor implements NestInterceptor {
  constructor(
    private readonly transaction: FirmTransaction,
    private readonly repeats: SafeRepeatService,
    private readonly audit: AuditService,
    private readonly compute: ComputeService,
    private readonly reflector: Reflector,
  ) {}

  async intercept(context: ExecutionContext, next: CallHandler): Promise<Observable<unknown>> {
    const http = context.switchToHttp();
    const request = http.getRequest<FastifyRequest>();
    const reply = http.getResponse<FastifyReply>();
    const { principal, transaction } = request;
    if (principal === undefined || transaction === undefined) return next.handle();
    const handle = (): Promise<unknown> =>
      lastValueFrom(next.handle(), { defaultValue: undefined });
    const around = <T>(work: () => Promise<T>) =>
      this.repeats.answerOnce(request, senderOf(principal), () =>
        this.change(principal, request, work),
      );
    let answer: unknown;
    if (this.reflector.get(InParts, context.getHandler()) === undefined) {
      const named = () => {
        putUnderOwnName(principal, request);
        return handle();
      };
      answer = await this.transaction.runIn(transaction, () => around(named));
    } else {
      if (transaction.mode === 'write') putUnderOwnName(principal, request);
      answer = await this.inParts({ transaction, around, reply, handle });
    }
    return of(answer);
  }

  /** What is worked out for somebody who leaves is given up; what is being written is not. */
  private async inParts(parted: PartedRequest): Promise<unknown> {
    const { transaction, around, reply, handle } = parted;
    const leaving = new AbortController();
    reply.raw.once('close', () => leaving.abort());
    let isWritten = transaction.mode === 'read';
    const entered = {
      prepare: (mode: Mode) => transaction.again(mode),
      around: <T>(work: () => Promise<T>) => {
        isWritten = true;
        return around(work);
      },
    };
    return this.transaction.enter(entered, () =>
      this.compute.whileAsked(leaving.signal, () =>
        this.repeats.inParts(async () => {
          const answer = await handle();
          // It changed nothing, and is noted all the same.
          if (!isWritten) await this.transaction.write(() => Promise.resolve());
          return answer;
        }),
      ),
    );
  }

  private async change<T>(
    principal: Principal,
    request: FastifyRequest,
    handle: () => Promise<T>,
  ): Promise<T> {
    const answer = await handle();
    const target = targetOf(request.params, answer);
    this.audit.done(principal, { ...auditedRequest(request), target });
    return answer;
  }
}

/** Before the body is checked: names in it are not taken from whoever has one of their own. */
function putUnderOwnName(principal: Principal, request: FastifyRequest): void {
  const { role, personName } = principal;
  if (personName === null || (role !== 'technician' && role !== 'client')) return;
  const route = routeKey(request.method, request.routeOptions.url ?? '');
  request.body = underOwnName(request.body, route, principal, personName);
  request.query = underOwnName(request.query, route, principal, personName);
}

/** The same person or pass, at the same site where there is one, whichever session it is. */
function senderOf({ personId, passId, siteId, clientId }: Principal): string {
  return [personId ?? passId, siteId ?? clientId].filter(Boolean).join(' ');
}

interface PartedRequest {
  transaction: OpenTransaction;
  around: <T>(work: () => Promise<T>) => Promise<T>;
  reply: FastifyReply;
  handle: () => Promise<unknown>;
}
