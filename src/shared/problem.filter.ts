import {
  type ArgumentsHost,
  Catch,
  type ExceptionFilter,
  HttpException,
  Logger,
} from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { findNul } from './find-nul.js';
import {
  ConflictError,
  TooManyError,
  DomainError,
  type DomainErrorKind,
  InvalidInputError,
} from './domain-error.js';

const KINDS: Record<DomainErrorKind, { status: number; title: string }> = {
  unauthenticated: { status: 401, title: 'Who are you?' },
  'second-step-required': { status: 401, title: 'The second step is missing' },
  forbidden: { status: 403, title: 'Not allowed' },
  ended: { status: 410, title: 'Ended' },
  'too-many': { status: 429, title: 'Too often' },
  'not-found': { status: 404, title: 'Not found' },
  'invalid-input': { status: 422, title: 'The input is not valid' },
  conflict: { status: 409, title: 'This does not fit what is there' },
  'move-not-allowed': { status: 409, title: 'This move is not allowed' },
  'stale-version': { status: 412, title: 'It has changed meanwhile' },
  'version-required': { status: 428, title: 'The version is missing' },
};

/** The one place where failures become RFC 9457 problem documents. */
@Catch()
export class ProblemFilter implements ExceptionFilter {
  private readonly logger = new Logger('Problem');

  catch(error: unknown, host: ArgumentsHost): void {
    const reply = host.switchToHttp().getResponse<FastifyReply>();
    const { body } = host.switchToHttp().getRequest<FastifyRequest>();
    const problem = this.describe(toDomainError(error, body));
    if (error instanceof TooManyError) void reply.header('retry-after', error.retryAfterSeconds);
    void reply.status(problem.status).type('application/problem+json').send(problem);
  }

  private describe(error: unknown): { status: number } & Record<string, unknown> {
    if (error instanceof DomainError) {
      const { status, title } = KINDS[error.kind];
      return problem(error.kind, title, status, error.message, error.details);
    }
    const status = statusOf(error);
    if (status !== undefined && status < 500) {
      return problem('request', 'The request was not understood', status, (error as Error).message);
    }
    // What went wrong inside is for the log alone: a message may hold SQL or another's data.
    this.logger.error(error instanceof Error ? error.stack : error);
    return status === 503
      ? problem('not-ready', 'Not ready', 503, 'The service is not ready; try again shortly.')
      : problem('internal', 'Something went wrong here', 500, 'It was logged; nothing was saved.');
  }
}

function problem(
  kind: string,
  title: string,
  status: number,
  detail: string,
  more: Record<string, unknown> = {},
): { status: number } & Record<string, unknown> {
  return { type: `urn:lastheard:problem:${kind}`, title, status, detail, ...more };
}

/** Nest's own exceptions and Fastify's parser errors carry their HTTP status. */
function statusOf(error: unknown): number | undefined {
  if (error instanceof HttpException) return error.getStatus();
  const status: unknown = (error as { statusCode?: unknown } | null)?.statusCode;
  return typeof status === 'number' ? status : undefined;
}

/** PostgreSQL's `unique_violation`: somebody else was quicker, or an id was used long ago. */
const TAKEN = '23505';

/**
 * PostgreSQL's class 22, "data exception": a value that no rule of ours refused but no column takes,
 * such as a text with NUL or a cursor that somebody made up.
 */
function toDomainError(error: unknown, body: unknown): unknown {
  const code = (error as { driverError?: { code?: unknown } } | null)?.driverError?.code;
  if (code === TAKEN) return new ConflictError('Something with this id or name is there already.');
  if (typeof code !== 'string' || !code.startsWith('22')) return error;
  const nul = findNul(body);
  return new InvalidInputError([
    nul === undefined
      ? { field: '', reason: 'holds a value that cannot be read' }
      : { field: nul, reason: 'holds the character NUL, which cannot be kept' },
  ]);
}
