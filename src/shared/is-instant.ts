import { applyDecorators } from '@nestjs/common';
import { Transform } from 'class-transformer';
import { ValidateBy } from 'class-validator';
import { isDay } from './is-day.js';

const INSTANT =
  /^(?<day>.{10})T(?:[01]\d|2[0-3]):[0-5]\d:[0-5]\d(?:\.\d{1,9})?(?:Z|[+-](?:[01]\d|2[0-3]):[0-5]\d)$/;

/**
 * The instant that a text names by RFC 3339; undefined where it names none. Without an offset it would be another one
 * wherever it is read.
 */
export function readInstant(text: string): Date | undefined {
  const written = text.toUpperCase();
  return isDay(INSTANT.exec(written)?.groups?.['day']) ? new Date(written) : undefined;
}

/** Makes a Date of an instant's text, and refuses everything else. */
export function IsInstant(): PropertyDecorator {
  const validate = (value: unknown) => value instanceof Date;
  const defaultMessage = () =>
    '$property must be a day and time with its offset, such as 2026-05-04T09:30:00+02:00 or 2026-05-04T07:30:00Z';
  return applyDecorators(
    Transform(({ value }: { value: unknown }) =>
      typeof value === 'string' ? (readInstant(value) ?? value) : value,
    ),
    ValidateBy({ name: 'isInstant', validator: { validate, defaultMessage } }),
  );
}
