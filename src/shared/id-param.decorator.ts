import { Param, ParseUUIDPipe } from '@nestjs/common';
import { InvalidInputError } from './domain-error.js';

/** A path parameter that is an id. */
export function IdParam(name: string): ParameterDecorator {
  const exceptionFactory = () => new InvalidInputError([{ field: name, reason: 'must be a UUID' }]);
  return Param(name, new ParseUUIDPipe({ exceptionFactory }));
}
