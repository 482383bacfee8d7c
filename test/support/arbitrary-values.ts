/** As far as the API document's schemas go. */
export interface Schema {
  $ref?: string;
  type?: string | string[];
  format?: string;
  enum?: unknown[];
  allOf?: Schema[];
  oneOf?: Schema[];
  anyOf?: Schema[];
  items?: Schema;
  properties?: Record<string, Schema>;
  required?: string[];
  additionalProperties?: Schema | boolean;
  minimum?: number;
  maximum?: number;
}

/** What no field wants, and what once was a failure within. */
const STRANGE: readonly unknown[] = [
  null,
  '',
  ' ',
  'x'.repeat(6_000),
  'a\0b',
  'a\ud800',
  '\u202e\u0007',
  '__proto__',
  '2026-13-45',
  '2026-02-30T10:00:00Z',
  '0001-01-01T00:00:00Z',
  '275760-09-13T00:00:00Z',
  -1,
  0.5,
  1e308,
  2 ** 53,
  -(2 ** 31) - 1,
  true,
  [],
  [[]],
  {},
  { toString: 1 },
  { kind: 'office', name: [] },
  Array.from({ length: 300 }, (_, index) => index),
  Array.from({ length: 60 }, () => '01900000-0000-7000-8000-000000000001'),
];

/** Values for the schemas of one API document, some as they should be and some not; the same for the same seed. */
export class ArbitraryValues {
  /** Ids of things that there are. */
  readonly ids: string[] = [];
  /** How often a value is a strange one, of 1. */
  strangeness = 0;
  private state: number;

  constructor(
    seed: number,
    private readonly schemas: Record<string, Schema>,
  ) {
    this.state = seed >>> 0;
  }

  /** From 0 up to and without 1 (mulberry32, public domain). */
  next(): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0;
    let t = this.state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  }

  pick<T>(values: readonly T[]): T {
    return values[Math.floor(this.next() * values.length)] as T;
  }

  id(): string {
    const isKnown = this.ids.length > 0 && this.next() < 0.8;
    return isKnown ? this.pick(this.ids) : '01900000-0000-7000-8000-00000000dead';
  }

  value(schema: Schema, depth = 0): unknown {
    if (this.next() < this.strangeness) return this.pick(STRANGE);
    if (schema.$ref !== undefined) return this.value(this.resolve(schema.$ref), depth);
    const oneOf = schema.oneOf ?? schema.anyOf;
    if (oneOf !== undefined) return this.value(this.pick(oneOf), depth);
    if (schema.allOf !== undefined) {
      return Object.assign({}, ...schema.allOf.map((part) => this.value(part, depth))) as unknown;
    }
    if (schema.enum !== undefined) return this.pick(schema.enum);
    return this.ofType(schema, depth);
  }

  private ofType(schema: Schema, depth: number): unknown {
    const type = Array.isArray(schema.type) ? this.pick(schema.type) : schema.type;
    const { minimum = 0, maximum = 50 } = schema;
    if (type === 'null') return null;
    if (type === 'boolean') return this.next() < 0.5;
    if (type === 'integer') return Math.round(minimum + this.next() * (maximum - minimum));
    if (type === 'number') return minimum + this.next() * (maximum - minimum);
    if (type === 'array') {
      const length = depth > 5 ? 0 : Math.floor(this.next() * 4);
      return Array.from({ length }, () => this.value(schema.items ?? {}, depth + 1));
    }
    if (type === 'object' || schema.properties !== undefined) return this.object(schema, depth);
    return this.text(schema.format);
  }

  private object({ properties = {}, required = [] }: Schema, depth: number): unknown {
    const names = Object.keys(properties).filter((name) =>
      required.includes(name) ? this.next() < 0.97 : this.next() < 0.4,
    );
    const entries = names.map((name) => [name, this.value(properties[name] ?? {}, depth + 1)]);
    return Object.fromEntries(entries) as unknown;
  }

  private text(format: string | undefined): string {
    if (format === 'uuid') return this.id();
    if (format === 'date') return `2026-0${1 + Math.floor(this.next() * 9)}-15`;
    if (format === 'date-time') return '2026-03-01T09:30:00+01:00';
    return this.pick(['A', 'A1', 'A2', 'B', 'A9', 'some text', 'Etc/UTC', 'me@firm.example']);
  }

  private resolve(ref: string): Schema {
    return this.schemas[ref.slice(ref.lastIndexOf('/') + 1)] ?? {};
  }
}
