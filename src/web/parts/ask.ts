import { Failure, toFailure } from './failure.js';
import { PAGE_LANGUAGE, PAGE_WORDS } from './language.js';

const JSON_TYPE = 'application/json';

const PATIENCE_MS = 20_000;

export type Method = 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';

export interface Asked {
  /** What is sent: a file as it is, with its type; all else as JSON. */
  body?: unknown;
  type?: string;
  csrfToken?: string | undefined;
  /** The version that was read, which a change is based on. */
  ifMatch?: number | undefined;
  /** How long the answer may take. */
  patienceMs?: number;
}

/** Asks the service, below /api/v1; throws a Failure for everything that is no answer. */
export async function ask<Answer>(
  method: Method,
  path: string,
  { body, type = JSON_TYPE, csrfToken, ifMatch, patienceMs = PATIENCE_MS }: Asked = {},
): Promise<Answer> {
  const response = await reach(`/api/v1${path}`, {
    method,
    headers: {
      accept: JSON_TYPE,
      'accept-language': PAGE_LANGUAGE,
      ...(body !== undefined && { 'content-type': type }),
      ...(csrfToken !== undefined && { 'x-csrf-token': csrfToken }),
      ...(ifMatch !== undefined && { 'if-match': `"${ifMatch}"` }),
    },
    body:
      body === undefined ? null : type === JSON_TYPE ? JSON.stringify(body) : (body as BodyInit),
    signal: AbortSignal.timeout(patienceMs),
  });
  const answer: unknown = await response.json().catch(() => undefined);
  if (!response.ok) throw toFailure(response.status, answer);
  return answer as Answer;
}

async function reach(url: string, init: RequestInit): Promise<Response> {
  try {
    return await fetch(url, init);
  } catch {
    throw new Failure(0, PAGE_WORDS.notReached);
  }
}
