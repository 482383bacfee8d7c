import type { Readers } from './as-built-fields.js';

/** Input as it came, before anything is known about it. */
export type Raw = Record<string, unknown>;

/** Where in the input: member names and indexes, outermost first. */
export type Path = (string | number)[];

export interface Complaint {
  path: Path;
  reason: string;
}

export function isObject(value: unknown): value is Raw {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Reads each field by its reader; what cannot be read, or is no field here, is complained about. */
export function readFields<T extends object>(
  readers: Readers<T>,
  raw: Raw,
  path: Path,
  complaints: Complaint[],
  otherFields: string[] = [],
): Partial<T> {
  const fields: Partial<T> = {};
  for (const field in readers) {
    const read = readers[field](raw[field]);
    if ('value' in read) fields[field] = read.value;
    else complaints.push({ path: [...path, field], reason: read.reason });
  }
  for (const field of Object.keys(raw)) {
    if (Object.hasOwn(readers, field) || otherFields.includes(field)) continue;
    complaints.push({ path: [...path, field], reason: 'is not a field here' });
  }
  return fields;
}

/** The path as an RFC 6901 JSON pointer. */
export function toPointer(path: Path): string {
  return path
    .map((part) => `/${String(part).replaceAll('~', '~0').replaceAll('/', '~1')}`)
    .join('');
}
