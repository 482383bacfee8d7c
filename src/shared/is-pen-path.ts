import { ValidateBy } from 'class-validator';
import { refusePenPath } from './pen-path.js';

/** Validates a signature drawn by hand. */
export function IsPenPath(): PropertyDecorator {
  return ValidateBy({
    name: 'isPenPath',
    validator: {
      validate: (value: unknown) => typeof value === 'string' && refusePenPath(value) === null,
      defaultMessage: (args) =>
        `$property ${typeof args?.value === 'string' ? refusePenPath(args.value) : 'must be a text'}`,
    },
  });
}
