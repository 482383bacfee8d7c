import {
  type CallHandler,
  type ExecutionContext,
  Injectable,
  type NestInterceptor,
} from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { from, lastValueFrom, type Observable } from 'rxjs';
import { CurrentFirm } from './current-firm.js';
import { FirmTransaction } from './firm-transaction.js';

/** Wraps every request in its firm's transaction, so that no answer leaves before the commit. */
@Injectable()
export class FirmTransactionInterceptor implements NestInterceptor {
  constructor(
    private readonly transaction: FirmTransaction,
    private readonly currentFirm: CurrentFirm,
  ) {}

  intercept(context: ExecutionContext, next: CallHandler): Observable<unknown> {
    const { method } = context.switchToHttp().getRequest<FastifyRequest>();
    const mode = method === 'GET' || method === 'HEAD' ? 'read' : 'write';
    return from(
      this.transaction.run(this.currentFirm.id, mode, () =>
        lastValueFrom(next.handle(), { defaultValue: undefined }),
      ),
    );
  }
}
