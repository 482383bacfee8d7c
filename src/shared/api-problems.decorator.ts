import { applyDecorators } from '@nestjs/common';
import { ApiExtraModels, ApiResponse, getSchemaPath } from '@nestjs/swagger';
import { ProblemDto } from './problem.dto.js';

const MEANINGS = {
  400: 'It is not a request that can be read.',
  401: 'Nobody is signed in, or what was sent to sign in is wrong.',
  403: 'The role, or the token’s scope, does not include it.',
  404: 'There is no such thing here.',
  409: 'It does not fit what is there; the detail says why.',
  410: 'It was ended; the detail says what to do.',
  413: 'The body is larger than is taken here; the detail says how large it may be.',
  414: 'The address is longer than 4,096 characters.',
  415: 'The body is of a kind that is not taken here.',
  412: 'Somebody changed it meanwhile; read it again.',
  422: 'The input is not valid; `errors` names every field and reason.',
  428: 'The header If-Match is missing.',
  429: 'Too often; the header Retry-After says when to try again.',
  431: 'The headers are too large.',
  503: 'Not ready or too busy; the header Retry-After says when to try again.',
} as const;

/** Describes the problem documents that a route may answer with. */
export function ApiProblems(
  ...statuses: (keyof typeof MEANINGS)[]
): ClassDecorator & MethodDecorator {
  return applyDecorators(
    ApiExtraModels(ProblemDto),
    ...statuses.map((status) => ApiResponse({ status, ...problemResponse(status)[status] })),
  );
}

/** The same as a part of the API document. */
export function problemResponse(status: keyof typeof MEANINGS) {
  const schema = { $ref: getSchemaPath(ProblemDto) };
  const content = { 'application/problem+json': { schema } };
  const headers = status === 429 ? LIMIT_HEADERS : undefined;
  return { [status]: { description: MEANINGS[status], content, ...(headers && { headers }) } };
}

const LIMIT_HEADERS = {
  'Retry-After': {
    description: 'In how many seconds to try again.',
    schema: { type: 'integer' as const },
  },
  'RateLimit-Policy': {
    description: 'How much in how many seconds: `"account";q=6000;w=60`.',
    schema: { type: 'string' as const },
  },
  RateLimit: {
    description: 'How much is left, and in how many seconds it begins anew: `"account";r=0;t=12`.',
    schema: { type: 'string' as const },
  },
};
