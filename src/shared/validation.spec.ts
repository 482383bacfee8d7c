import type { ArgumentMetadata } from '@nestjs/common';
import { describe, expect, it } from '@jest/globals';
import { Type } from 'class-transformer';
import {
  IsArray,
  IsBoolean,
  IsOptional,
  IsString,
  Max,
  ValidateBy,
  ValidateNested,
} from 'class-validator';
import { type FieldError, InvalidInputError } from './domain-error.js';
import { createValidationPipe } from './validation.js';

/** How many names were checked. */
let looked = 0;

class Part {
  @IsString()
  @ValidateBy({ name: 'isLooked', validator: { validate: () => ++looked > 0 } })
  name!: string;
}

class Sent {
  @Type(() => Part)
  @ValidateNested()
  part!: Part;

  @IsOptional()
  @IsArray()
  @Type(() => Part)
  @ValidateNested({ each: true })
  parts?: Part[];

  @IsOptional()
  @IsBoolean()
  isLoud?: boolean;

  @IsOptional()
  @Max(5)
  count?: number;
}

async function errorsOf(value: unknown, type: ArgumentMetadata['type']): Promise<FieldError[]> {
  try {
    await createValidationPipe().transform(value, { type, metatype: Sent });
  } catch (error) {
    if (error instanceof InvalidInputError) return error.errors;
    throw error;
  }
  return [];
}

async function failureOf(value: unknown): Promise<Error> {
  try {
    await createValidationPipe().transform(value, { type: 'body', metatype: Sent });
  } catch (error) {
    return error as Error;
  }
  throw new Error('It was taken');
}

describe('the validation pipe', () => {
  it('names each field of a body by its pointer, and says in plain words what it must be', async () => {
    const sent = { part: 'terminals', parts: [{ name: 'fuse' }, 5, {}], isLoud: 'yes', more: 1 };
    const errors = await errorsOf(sent, 'body');
    expect(errors.sort((a, b) => (a.field < b.field ? -1 : 1))).toEqual([
      { field: '/isLoud', reason: 'must be true or false' },
      { field: '/more', reason: 'is not a field here' },
      { field: '/part', reason: 'must be an object' },
      { field: '/parts/1', reason: 'must be an object' },
      { field: '/parts/2/name', reason: 'is missing' },
    ]);
    expect(await errorsOf({ part: { name: 'fuse' }, parts: 'fuse' }, 'body')).toEqual([
      { field: '/parts', reason: 'must be an array' },
    ]);
  });

  it.each([[[]], [null], [undefined], ['x'], [5], [false], [Buffer.from('part;name')]])(
    'tells once that a body must be an object, which %j is not',
    async (body) => {
      expect(await errorsOf(body, 'body')).toEqual([
        { field: '', reason: 'must be a JSON object' },
      ]);
    },
  );

  it('looks at no more of a list than it needs to tell a hundred errors, and at each element once', async () => {
    const bad = { name: 5 };
    const listWith = (good: number, wrong: number) => ({
      part: { name: 'fuse' },
      parts: [...Array<object>(good).fill({ name: 'fuse' }), ...Array<object>(wrong).fill(bad)],
    });
    looked = 0;
    expect(await errorsOf(listWith(0, 4000), 'body')).toHaveLength(100);
    expect(looked).toBeLessThanOrEqual(200);
    const { message } = await failureOf(listWith(0, 4000));
    expect(message).toMatch(/^At least 100 things are wrong .*; nothing was saved\.$/);

    looked = 0;
    const late = await errorsOf(listWith(3000, 1000), 'body');
    expect(late[0]).toEqual({ field: '/parts/3000/name', reason: 'must be a string' });
    expect(looked).toBeLessThanOrEqual(3200);

    looked = 0;
    expect(await errorsOf(listWith(4000, 0), 'body')).toEqual([]);
    expect(looked).toBe(4001);
    const few = listWith(4000, 3);
    expect((await failureOf(few)).message).toMatch(/^3 things are wrong/);
    const mixed = [5, {}, { name: 'fuse', more: 1 }];
    expect(
      await errorsOf({ ...few, parts: [...few.parts.slice(0, 4000), ...mixed] }, 'body'),
    ).toEqual([
      { field: '/parts/4000', reason: 'must be an object' },
      { field: '/parts/4001/name', reason: 'is missing' },
      { field: '/parts/4002/more', reason: 'is not a field here' },
    ]);
  });

  it('names a parameter of the query by its name', async () => {
    expect(await errorsOf({ part: { name: 'fuse' }, count: 6 }, 'query')).toEqual([
      { field: 'count', reason: 'must not be greater than 5' },
    ]);
  });
});
