import {
  type CallHandler,
  type ExecutionContext,
  Injectable,
  type NestInterceptor,
} from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { type Observable, tap } from 'rxjs';

/** Whatever carries a version answers with it as its ETag; If-Match then names it. */
@Injectable()
export class EtagInterceptor implements NestInterceptor {
  intercept(context: ExecutionContext, next: CallHandler): Observable<unknown> {
    return next.handle().pipe(
      tap((body: { version?: unknown } | null | undefined) => {
        if (typeof body?.version !== 'number') return;
        const reply = context.switchToHttp().getResponse<FastifyReply>();
        void reply.header('etag', `"${body.version}"`);
      }),
    );
  }
}
