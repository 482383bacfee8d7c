import {
  type CallHandler,
  type ExecutionContext,
  Injectable,
  type NestInterceptor,
} from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { from, lastValueFrom, type Observable } from 'rxjs';
import { FirmTransaction, type OpenTransaction } from './firm-transaction.js';

declare module 'fastify' {
  interface FastifyRequest {
    /** The firm's transaction that the guard entered; open routes have none. */
    transaction?: OpenTransaction;
  }
}

/** Wraps every request in its firm's transaction, so that no answer leaves before the commit. */
@Injectable()
export class FirmTransactionInterceptor implements NestInterceptor {
  constructor(private readonly transaction: FirmTransaction) {}

  intercept(context: ExecutionContext, next: CallHandler): Observable<unknown> {
    const { transaction } = context.switchToHttp().getRequest<FastifyRequest>();
    if (transaction === undefined) return next.handle();
    return from(
      this.transaction.runIn(transaction, () =>
        lastValueFrom(next.handle(), { defaultValue: undefined }),
      ),
    );
  }
}
