import { applyDecorators } from '@nestjs/common';
import { ApiExtraModels, ApiResponse, getSchemaPath } from '@nestjs/swagger';
import { ProblemDto } from './problem.dto.js';

const MEANINGS = {
  404: 'There is no such thing here.',
  409: 'It does not fit what is there; the detail says why.',
  412: 'Somebody changed it meanwhile; read it again.',
  422: 'The input is not valid; `errors` names every field and reason.',
  428: 'The header If-Match is missing.',
} as const;

/** Describes the problem documents that a route may answer with. */
export function ApiProblems(
  ...statuses: (keyof typeof MEANINGS)[]
): ClassDecorator & MethodDecorator {
  return applyDecorators(
    ApiExtraModels(ProblemDto),
    ...statuses.map((status) =>
      ApiResponse({
        status,
        description: MEANINGS[status],
        content: { 'application/problem+json': { schema: { $ref: getSchemaPath(ProblemDto) } } },
      }),
    ),
  );
}
