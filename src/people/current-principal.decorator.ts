import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import type { Principal } from './principal.js';

/** Who sends the request; only on routes that are not open. */
export const CurrentPrincipal = createParamDecorator(
  (_: unknown, context: ExecutionContext): Principal => {
    const { principal } = context.switchToHttp().getRequest<FastifyRequest>();
    if (principal === undefined) throw new Error('An open route has no principal');
    return principal;
  },
);
