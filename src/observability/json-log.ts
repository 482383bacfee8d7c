import type { LoggerService } from '@nestjs/common';
import type { FastifyBaseLogger } from 'fastify';
import { type DestinationStream, type Logger, pino } from 'pino';

/** One line of JSON each; what a request brings along as its secret is never written. */
export function createJsonLog(level: string, destination?: DestinationStream): Logger {
  const options = {
    level,
    base: { pid: process.pid },
    timestamp: pino.stdTimeFunctions.isoTime,
    formatters: { level: (label: string) => ({ level: label }) },
    // A database error carries its SQL and parameters as members: the stack alone is written.
    serializers: { err: (error: unknown) => ({ stack: stackOf(error) }) },
  };
  return destination === undefined ? pino(options) : pino(options, destination);
}

/** What the framework and the services say, as lines of the same log. */
export function toNestLogger(log: FastifyBaseLogger): LoggerService {
  return {
    // What the framework says of itself at its start is for whoever looks for it.
    log: (message: unknown) => log.debug(stackOf(message)),
    error: (message: unknown) => log.error(stackOf(message)),
    warn: (message: unknown) => log.warn(stackOf(message)),
    debug: (message: unknown) => log.debug(stackOf(message)),
    verbose: (message: unknown) => log.trace(stackOf(message)),
    fatal: (message: unknown) => log.fatal(stackOf(message)),
  };
}

function stackOf(error: unknown): string {
  const { stack } = (error ?? {}) as { stack?: unknown };
  return typeof stack === 'string' ? stack : String(error);
}
