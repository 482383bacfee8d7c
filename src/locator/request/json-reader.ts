import type { PlanTables } from '../../plan/plan-tables.js';
import type { RequestError } from './errors.js';
import { MAX_ID_LENGTH } from './limits.js';

type Fields = Record<string, unknown>;

/** Reads untyped JSON, collecting every error; a read that failed gives undefined. Names are those of one plan. */
export class JsonReader {
  readonly errors: RequestError[] = [];

  constructor(readonly plan: PlanTables) {}

  error(pointer: string, reason: string): undefined {
    this.errors.push({ pointer, reason });
    return undefined;
  }

  /** The error of a value that is not what it must be, or is not there at all. */
  refuse(value: unknown, pointer: string, reason: string): undefined {
    return this.error(pointer, value === undefined ? 'is missing' : reason);
  }

  /** An object with no fields but the known ones. */
  object(value: unknown, pointer: string, known: readonly string[]): Fields | undefined {
    if (typeof value !== 'object' || value === null || Array.isArray(value))
      return this.error(pointer, 'must be an object');
    for (const key of Object.keys(value))
      if (!known.includes(key)) this.error(`${pointer}/${escapePointer(key)}`, 'unknown field');
    return value as Fields;
  }

  array(value: unknown, pointer: string, maximum: number, minimum = 0): unknown[] | undefined {
    if (!Array.isArray(value)) return this.refuse(value, pointer, 'must be an array');
    if (value.length < minimum) return this.error(pointer, `must have at least ${minimum}`);
    if (value.length > maximum) return this.error(pointer, `at most ${maximum} are allowed`);
    return value as unknown[];
  }

  /** An array of different things, each as `read` reads it. */
  distinct<T extends string>(
    value: unknown,
    pointer: string,
    maximum: number,
    read: (item: unknown, pointer: string) => T | undefined,
    minimum = 0,
  ): T[] {
    const list = this.array(value, pointer, maximum, minimum) ?? [];
    return list.flatMap((item, i) => {
      const found = read(item, `${pointer}/${i}`);
      if (found && list.indexOf(item) < i)
        this.error(`${pointer}/${i}`, `"${found}" is already listed`);
      return found ?? [];
    });
  }

  number(value: unknown, pointer: string, minimum: number, maximum: number): number | undefined {
    if (typeof value !== 'number' || !Number.isFinite(value))
      return this.refuse(value, pointer, 'must be a number');
    if (value < minimum || value > maximum)
      return this.error(pointer, `must be from ${minimum} to ${maximum}`);
    return value;
  }

  integer(value: unknown, pointer: string, minimum: number, maximum: number): number | undefined {
    const number = this.number(value, pointer, minimum, maximum);
    if (number !== undefined && !Number.isInteger(number))
      return this.error(pointer, 'must be a whole number');
    return number;
  }

  id(value: unknown, pointer: string, most = MAX_ID_LENGTH): string | undefined {
    if (typeof value !== 'string' || value === '')
      return this.refuse(value, pointer, 'must be a text that is not empty');
    if (value.length > most) return this.error(pointer, `must have at most ${most} characters`);
    return value;
  }

  oneOf<T extends string>(value: unknown, pointer: string, known: readonly T[]): T | undefined {
    const found = known.find((name) => name === value);
    return found ?? this.refuse(value, pointer, `must be one of ${known.join(', ')}`);
  }
}

/** RFC 6901: `~` and `/` inside a name are written `~0` and `~1`. */
function escapePointer(name: string): string {
  return name.replaceAll('~', '~0').replaceAll('/', '~1');
}
