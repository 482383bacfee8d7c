import type { Task } from '../compute/compute.service.js';
import { ImpossibleEvidence, InvalidLocateRequest } from '../locator/index.js';
import { InvalidInputError } from '../shared/domain-error.js';
import type { LocatedInJson } from './locate-ticket.js';
import type { TicketQuestion } from './ticket-facts.js';
import type { KitQuestion } from './kit-ticket.js';
import type { WalkQuestion } from './walk-ticket.js';

const errors = { ImpossibleEvidence, InvalidLocateRequest, InvalidInputError };

/** A drawing and evidence as they were sent; answers with the result in JSON. */
export const LOCATE: Task<unknown, string> = {
  file: new URL('./locate.worker.js', import.meta.url),
  errors,
};

export const LOCATE_TICKET: Task<TicketQuestion, LocatedInJson> = {
  file: new URL('./locate-ticket.worker.js', import.meta.url),
  errors,
};

/** Answers with the office's checks in JSON. */
export const CHECK_TICKET: Task<TicketQuestion, string> = {
  file: new URL('./check-ticket.worker.js', import.meta.url),
  errors,
};

/** Answers with the plan in JSON. */
export const WALK: Task<WalkQuestion, string> = {
  file: new URL('./walk.worker.js', import.meta.url),
  errors,
};

/** Answers with the kit in JSON. */
export const KIT: Task<KitQuestion, string> = {
  file: new URL('./kit.worker.js', import.meta.url),
  errors,
};

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
