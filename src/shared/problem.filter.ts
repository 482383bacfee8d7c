import {
  type ArgumentsHost,
  Catch,
  type ExceptionFilter,
  HttpException,
  Logger,
} from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Clock } from './clock.js';
import { type PassingFailure, readPassingFailure, sqlStateOf } from './database-failure.js';
import {
  BusyError,
  ConflictError,
  TooManyError,
  DomainError,
  type DomainErrorKind,
  InvalidInputError,
} from './domain-error.js';
import { OncePerPeriod } from './once-per-period.js';
import { type Problem, requestProblem, toProblem } from './problem.js';
import { sendProblem } from './send-problem.js';

const KINDS: Record<DomainErrorKind, { status: number; title: string }> = {
  unauthenticated: { status: 401, title: 'Who are you?' },
  'second-step-required': { status: 401, title: 'The second step is missing' },
  forbidden: { status: 403, title: 'Not allowed' },
  ended: { status: 410, title: 'Ended' },
  'too-many': { status: 429, title: 'Too often' },
  busy: { status: 503, title: 'Too much to do' },
  'not-found': { status: 404, title: 'Not found' },
  'invalid-input': { status: 422, title: 'The input is not valid' },
  conflict: { status: 409, title: 'This does not fit what is there' },
  'move-not-allowed': { status: 409, title: 'This move is not allowed' },
  'stale-version': { status: 412, title: 'It has changed meanwhile' },
  'version-required': { status: 428, title: 'The version is missing' },
};

/** While the database is away every request fails alike; one line in so long says so. */
const AWAY_LINE_EACH_MS = 30_000;

const UNAVAILABLE_SECONDS = 5;

/** The one place where failures become RFC 9457 problem documents. */
@Catch()
export class ProblemFilter implements ExceptionFilter {
  private readonly logger = new Logger('Problem');
  private readonly awayLines = new OncePerPeriod(AWAY_LINE_EACH_MS);

  constructor(private readonly clock: Clock) {}

  catch(error: unknown, host: ArgumentsHost): void {
    const reply = host.switchToHttp().getResponse<FastifyReply>();
    const request = host.switchToHttp().getRequest<FastifyRequest>();
    const passing = readPassingFailure(error) ?? readUnavailable(error);
    const problem = passing === undefined ? this.describe(error, request) : this.away(passing);
    const retryAfter = passing ?? (isToComeAgain(error) ? error : undefined);
    if (retryAfter) void reply.header('retry-after', retryAfter.retryAfterSeconds);
    sendProblem(request, reply, problem);
  }

  private describe(thrown: unknown, request: FastifyRequest): Problem {
    const error = toDomainError(thrown);
    if (error instanceof DomainError) {
      const { status, title } = KINDS[error.kind];
      return toProblem(error.kind, title, status, error.message, error.details);
    }
    const status = statusOf(error);
    if (status !== undefined && status < 500) {
      return requestProblem(status, whatIsWrong(status, error as Error, request));
    }
    // What went wrong inside is for the log alone: a message may hold SQL or another's data.
    this.logger.error(error instanceof Error ? error.stack : error);
    const detail = 'It was logged; nothing was saved.';
    return toProblem('internal', 'Something went wrong here', 500, detail);
  }

  private away({ reason, retryAfterSeconds }: PassingFailure): Problem {
    const heldBack = this.awayLines.note(this.clock.now());
    if (heldBack !== undefined) {
      this.logger.error(`Not ready: ${reason} (${heldBack} more before this, not logged)`);
    }
    const detail = 'The service is not ready; nothing was saved. Try again shortly.';
    return toProblem('not-ready', 'Not ready', 503, detail, { retryAfterSeconds });
  }
}

/** What refuses work for now says so with this status; the caller may come again. */
function readUnavailable(error: unknown): PassingFailure | undefined {
  if (statusOf(error) !== 503) return undefined;
  return { reason: (error as Error).message, retryAfterSeconds: UNAVAILABLE_SECONDS };
}

/** Nest's own exceptions and Fastify's parser errors carry their HTTP status. */
function statusOf(error: unknown): number | undefined {
  if (error instanceof HttpException) return error.getStatus();
  const status: unknown = (error as { statusCode?: unknown } | null)?.statusCode;
  return typeof status === 'number' ? status : undefined;
}

function whatIsWrong(
  status: number,
  { message }: Error,
  { routeOptions }: FastifyRequest,
): string | undefined {
  if (status !== 413) return message || undefined;
  return `The body is larger than ${routeOptions.bodyLimit} bytes, the most that is taken here.`;
}

/** PostgreSQL's `unique_violation`: somebody else was quicker, or an id was used long ago. */
const TAKEN = '23505';

/** PostgreSQL's class 22, "data exception": a value that no rule of ours refused but no column takes. */
const DATA_EXCEPTION = '22';

/** PostgreSQL's `foreign_key_violation`. */
const NOT_THERE = '23503';

function toDomainError(error: unknown): unknown {
  const state = sqlStateOf(error);
  if (state === NOT_THERE) return toMissingError(error);
  if (state === TAKEN) return new ConflictError('Something with this id or name is there already.');
  if (state?.startsWith(DATA_EXCEPTION) !== true) return error;
  return new InvalidInputError([{ field: '', reason: 'holds a value that cannot be read' }]);
}

/** An id of nothing that there is, which no rule of ours looked for; or what was to go is still needed. */
function toMissingError(error: unknown): DomainError {
  const { driverError } = error as { driverError: { detail?: string; constraint?: string } };
  const column = /_firm_id_(\w+)_fkey$/.exec(driverError.constraint ?? '')?.[1];
  // Row-level security leaves the values out of the detail, and nothing else says which way it failed.
  if (column === undefined || driverError.detail?.includes('is not present') !== true) {
    return new ConflictError('Something else needs it, or is not there.');
  }
  const field = column.replaceAll(/_(\w)/g, (_, letter: string) => letter.toUpperCase());
  return new InvalidInputError([
    { field: `/${field}`, reason: 'names nothing that there is here' },
  ]);
}

function isToComeAgain(error: unknown): error is TooManyError | BusyError {
  return error instanceof TooManyError || error instanceof BusyError;
}
