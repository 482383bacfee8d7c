import type { Task } from '../compute/compute.service.js';
import { ImpossibleEvidence, InvalidLocateRequest } from '../locator/index.js';
import { InvalidInputError } from '../shared/domain-error.js';
import type { LocatedInJson } from './locate-ticket.js';
import type { TicketQuestion } from './ticket-facts.js';

/** What a task that asks the locator may throw. */
export const LOCATOR_ERRORS = { ImpossibleEvidence, InvalidLocateRequest, InvalidInputError };

/** A drawing and evidence as they were sent; answers with the result in JSON. */
export const LOCATE: Task<unknown, string> = {
  file: new URL('./locate.worker.js', import.meta.url),
  errors: LOCATOR_ERRORS,
};

export const LOCATE_TICKET: Task<TicketQuestion, LocatedInJson> = {
  file: new URL('./locate-ticket.worker.js', import.meta.url),
  errors: LOCATOR_ERRORS,
};

/** Answers with the office's checks in JSON. */
export const CHECK_TICKET: Task<TicketQuestion, string> = {
  file: new URL('./check-ticket.worker.js', import.meta.url),
  errors: LOCATOR_ERRORS,
};

/** @throws InvalidInputError where there is no drawing in which a place could be found */
export function assertDrawn({ drawing }: Pick<TicketQuestion, 'drawing'>): void {
  if (drawing.trunks.length > 0) return;
  const reason = 'is 0: nobody has drawn this site yet, and no place can be worked out';
  throw new InvalidInputError([{ field: '/asBuiltVersion', reason }]);
}

/** Whether the locator cannot say anything of what it was given. */
export function isRefused(error: unknown): error is InvalidLocateRequest | ImpossibleEvidence {
  return error instanceof InvalidLocateRequest || error instanceof ImpossibleEvidence;
}

/** What the locator refuses, told as wrong input. */
export function asInvalidInput(error: unknown): unknown {
  if (!isRefused(error)) return error;
  return new InvalidInputError(
    error.errors.map(({ pointer, reason }) => ({ field: pointer, reason })),
  );
}
