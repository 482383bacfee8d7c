import { ValidateBy, type ValidationOptions } from 'class-validator';

/** Whether a text is a day of the calendar, written year-month-day. */
export function isDay(value: unknown): boolean {
  if (typeof value !== 'string' || !/^(19|2\d)\d\d-\d\d-\d\d$/.test(value)) return false;
  const instant = new Date(`${value}T00:00:00Z`);
  return !Number.isNaN(instant.getTime()) && instant.toISOString().startsWith(value);
}

/** Validates a day without a time of day; ISO 8601 validators take instants too. */
export function IsDay(options?: ValidationOptions): PropertyDecorator {
  const defaultMessage = () => '$property must be a day written year-month-day, such as 2026-05-04';
  return ValidateBy({ name: 'isDay', validator: { validate: isDay, defaultMessage } }, options);
}
