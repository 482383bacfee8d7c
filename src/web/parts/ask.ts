import { Failure, toFailure } from './failure.js';
import { PAGE_LANGUAGE, PAGE_WORDS } from './language.js';
import { SERVICE_CLOCK } from './service-clock.js';

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
  /** Ends the waiting, and with it the work. */
  signal?: AbortSignal;
}

/** Asks the service, below /api/v1; throws a Failure for everything that is no answer. */
export async function ask<Answer>(
  method: Method,
  path: string,
  { body, type = JSON_TYPE, csrfToken, ifMatch, ...waiting }: Asked = {},
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
    signal: signalOf(waiting),
  });
  const answer = await readAnswer(response);
  if (!response.ok) throw toFailure(response.status, answer);
  return answer as Answer;
}

/** What there is below /api/v1, unless it is still what that ETag names. Throws as `ask` does. */
export async function askIfChanged<Answer>(
  path: string,
  etag: string | undefined,
): Promise<{ answer: Answer; etag: string } | 'same'> {
  const response = await reach(`/api/v1${path}`, {
    headers: {
      accept: JSON_TYPE,
      'accept-language': PAGE_LANGUAGE,
      ...(etag !== undefined && { 'if-none-match': etag }),
    },
    signal: AbortSignal.timeout(PATIENCE_MS),
  });
  if (response.status === 304) return 'same';
  const answer = await readAnswer(response);
  if (!response.ok) throw toFailure(response.status, answer);
  return { answer: answer as Answer, etag: response.headers.get('etag') ?? '' };
}

/** Undefined where it says nothing, or no JSON. An answer that ends in its middle never came. */
async function readAnswer(response: Response): Promise<unknown> {
  const text = await response.text().catch(() => {
    throw new Failure(0, PAGE_WORDS.notReached);
  });
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}

function signalOf({ patienceMs = PATIENCE_MS, signal }: Pick<Asked, 'patienceMs' | 'signal'>) {
  const patience = AbortSignal.timeout(patienceMs);
  return signal === undefined ? patience : AbortSignal.any([patience, signal]);
}

async function reach(url: string, init: RequestInit): Promise<Response> {
  const askedAt = Date.now();
  try {
    const response = await fetch(url, init);
    SERVICE_CLOCK.hear(response.headers.get('date'), askedAt);
    return response;
  } catch {
    throw new Failure(0, PAGE_WORDS.notReached);
  }
}
