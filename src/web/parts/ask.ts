import { Failure, toFailure } from './failure.js';
import { PAGE_LANGUAGE, PAGE_WORDS } from './language.js';

const PATIENCE_MS = 20_000;

interface Asked {
  body?: unknown;
  csrfToken?: string;
}

/** Asks the service, below /api/v1; throws a Failure for everything that is no answer. */
export async function ask<Answer>(
  method: 'GET' | 'POST' | 'DELETE',
  path: string,
  { body, csrfToken }: Asked = {},
): Promise<Answer> {
  const response = await reach(`/api/v1${path}`, {
    method,
    headers: {
      accept: 'application/json',
      'accept-language': PAGE_LANGUAGE,
      ...(body !== undefined && { 'content-type': 'application/json' }),
      ...(csrfToken !== undefined && { 'x-csrf-token': csrfToken }),
    },
    body: body === undefined ? null : JSON.stringify(body),
    signal: AbortSignal.timeout(PATIENCE_MS),
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
