import type { Language } from '../words/index.js';
import { refusalIn } from '../words/refusals.js';
import type { FieldError } from './domain-error.js';

/** A failure as RFC 9457 problem details; what more it says goes beside. */
export interface Problem extends Record<string, unknown> {
  type: string;
  title: string;
  status: number;
  detail: string;
}

export const PROBLEM_TYPE = 'application/problem+json';

export function toProblem(
  kind: string,
  title: string,
  status: number,
  detail: string,
  more: Record<string, unknown> = {},
): Problem {
  return { type: `urn:lastheard:problem:${kind}`, title, status, detail, ...more };
}

/** What the web server's layer refuses before there is a request that the app could know. */
const NOT_UNDERSTOOD: Readonly<Record<number, string>> = {
  400: 'This is not a request that can be read: its address, a header or its body is malformed.',
  408: 'The request did not arrive whole in time.',
  414: 'The address is too long.',
  415: 'Bodies are application/json here, and text/csv where a sheet is taken.',
  417: 'No expectation is met here but 100-continue.',
  431: 'The headers are too large.',
};

/** The problem of a request that was not understood; `said` is more than its status says, where something is. */
export function requestProblem(status: number, said?: string): Problem {
  const detail = said ?? NOT_UNDERSTOOD[status] ?? `It was refused with the status ${status}.`;
  return toProblem('request', 'The request was not understood', status, detail);
}

/** The same with what it says for people in their language beside the English, which is for programs. */
export function problemIn(language: Language, problem: Problem): Problem {
  if (language === 'en') return problem;
  const { errors } = problem as { errors?: readonly FieldError[] };
  const told = errors?.map((one) => ({ ...one, words: refusalIn(language, one.reason) }));
  const words = refusalIn(language, problem.detail);
  return { ...problem, words, ...(told !== undefined && { errors: told }) };
}
