import {
  type CallHandler,
  type ExecutionContext,
  Injectable,
  type NestInterceptor,
} from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { concatMap, type Observable } from 'rxjs';
import { targetOf } from './record.js';
import { RecordService } from './record.service.js';
import { recordedRequest } from './recorded-request.decorator.js';

/** Puts every change into the record, in the transaction that makes it. */
@Injectable()
export class RecordInterceptor implements NestInterceptor {
  constructor(private readonly record: RecordService) {}

  intercept(context: ExecutionContext, next: CallHandler): Observable<unknown> {
    const request = context.switchToHttp().getRequest<FastifyRequest>();
    const { principal, transaction, method } = request;
    if (principal === undefined || transaction === undefined) return next.handle();
    if (method === 'GET' || method === 'HEAD') return next.handle();
    return next.handle().pipe(
      concatMap(async (answer: unknown) => {
        const target = targetOf(request.params, answer);
        await this.record.done(principal, { ...recordedRequest(request), target });
        return answer;
      }),
    );
  }
}
