import type { ArgumentMetadata } from '@nestjs/common';
import { describe, expect, it } from '@jest/globals';
import { Type } from 'class-transformer';
import { IsArray, IsBoolean, IsOptional, IsString, Max, ValidateNested } from 'class-validator';
import { type FieldError, InvalidInputError } from './domain-error.js';
import { createValidationPipe } from './validation.js';

class Part {
  @IsString()
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

  it('names a parameter of the query by its name', async () => {
    expect(await errorsOf({ part: { name: 'fuse' }, count: 6 }, 'query')).toEqual([
      { field: 'count', reason: 'must not be greater than 5' },
    ]);
  });
});
