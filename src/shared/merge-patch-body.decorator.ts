import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { InvalidInputError } from './domain-error.js';

/** The body as an RFC 7396 merge patch, as it came: what is not in it must not get a default. */
export const MergePatchBody = createParamDecorator(
  (_: unknown, context: ExecutionContext): Record<string, unknown> => {
    const { body } = context.switchToHttp().getRequest<FastifyRequest>();
    if (typeof body !== 'object' || body === null || Array.isArray(body)) {
      throw new InvalidInputError([
        { field: '', reason: 'must be a JSON object of the fields to change' },
      ]);
    }
    return body as Record<string, unknown>;
  },
);
