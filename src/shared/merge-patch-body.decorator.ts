import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { asJsonObject } from './json-object.js';

/** The body as an RFC 7396 merge patch, as it came: what is not in it must not get a default. */
export const MergePatchBody = createParamDecorator(
  (_: unknown, context: ExecutionContext): Record<string, unknown> =>
    asJsonObject(context.switchToHttp().getRequest<FastifyRequest>().body),
);
