import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { InvalidInputError, VersionRequiredError } from './domain-error.js';

/** The version in the header If-Match, as a number; 428 when the header is missing. */
export const IfMatch = createParamDecorator((_: unknown, context: ExecutionContext): number => {
  const version = readIfMatch(context);
  if (version === undefined) throw new VersionRequiredError();
  return version;
});

/** The same where the header may be left out: then undefined. */
export const IfMatchIfAny = createParamDecorator(
  (_: unknown, context: ExecutionContext): number | undefined => readIfMatch(context),
);

function readIfMatch(context: ExecutionContext): number | undefined {
  const header = context.switchToHttp().getRequest<FastifyRequest>().headers['if-match'];
  if (header === undefined) return undefined;
  const version = /^(?:W\/)?"?(\d+)"?$/.exec(header)?.[1];
  if (version === undefined) {
    throw new InvalidInputError([
      { field: 'If-Match', reason: 'must be an ETag that was read here, such as "3"' },
    ]);
  }
  return Number(version);
}
