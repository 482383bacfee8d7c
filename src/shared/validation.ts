import { type ArgumentMetadata, type Type, ValidationPipe } from '@nestjs/common';
import { plainToInstance } from 'class-transformer';
import { validate, type ValidationError, type ValidatorOptions } from 'class-validator';
import { validateBounded } from './bounded-validation.js';
import { type FieldError, InvalidInputError, MAX_ERRORS_TOLD } from './domain-error.js';
import { asJsonObject, escapePointer } from './json-object.js';
import { mergePatch } from './merge-patch.js';

const OPTIONS = {
  whitelist: true,
  forbidNonWhitelisted: true,
  stopAtFirstError: true,
} satisfies ValidatorOptions;

/** Checks every body and query against its DTO; all errors at once, by JSON pointer or a parameter's name. */
class NamingPipe extends ValidationPipe {
  /** What ended early, so that its errors are not told to be all. */
  private static readonly endedEarly = new WeakSet<ValidationError[]>();

  protected override async validate(
    object: object,
    options?: ValidatorOptions,
  ): Promise<ValidationError[]> {
    const found = await validateBounded(object, options ?? OPTIONS, MAX_ERRORS_TOLD);
    if (found.endedEarly) NamingPipe.endedEarly.add(found.errors);
    return found.errors;
  }

  static toInvalidInput(errors: ValidationError[]): InvalidInputError {
    return new InvalidInputError(toFieldErrors(errors), NamingPipe.endedEarly.has(errors));
  }

  override async transform(value: unknown, metadata: ArgumentMetadata): Promise<unknown> {
    if (metadata.type === 'body' && this.toValidate(metadata)) asJsonObject(value);
    try {
      return await super.transform(value, metadata);
    } catch (error) {
      if (metadata.type !== 'query' || !(error instanceof InvalidInputError)) throw error;
      const named = error.errors.map((one) => ({ ...one, field: one.field.replace(/^\//, '') }));
      throw new InvalidInputError(named, error.endedEarly);
    }
  }
}

export function createValidationPipe(): ValidationPipe {
  return new NamingPipe({
    ...OPTIONS,
    transform: true,
    exceptionFactory: (errors) => NamingPipe.toInvalidInput(errors),
  });
}

/**
 * The fields that a merge patch (RFC 7396) makes of the current ones, checked as a whole against
 * their DTO. What of `current` is not a field of the DTO is left alone.
 */
export async function patchFields<Fields extends object>(
  fieldsDto: Type<Fields>,
  current: object,
  patch: Record<string, unknown>,
): Promise<Fields> {
  const names = Object.keys(new fieldsDto());
  const fields = Object.fromEntries(
    Object.entries(current).filter(([name, value]) => names.includes(name) && value !== null),
  );
  const patched = plainToInstance(fieldsDto, mergePatch(fields, patch));
  const errors = await validate(patched, OPTIONS);
  if (errors.length > 0) throw new InvalidInputError(toFieldErrors(errors));
  return patched;
}

function toFieldErrors(errors: ValidationError[], parent = ''): FieldError[] {
  return errors.flatMap((error) => {
    const field = `${parent}/${escapePointer(error.property)}`;
    const own = reasonsOf(error).map((reason) => ({ field, reason }));
    return [...own, ...toFieldErrors(error.children ?? [], field)];
  });
}

/** Where the library's own words are for programmers. */
const PLAIN_REASONS: Readonly<Record<string, string>> = {
  whitelistValidation: 'is not a field here',
  nestedValidation: 'must be an object',
  isBoolean: 'must be true or false',
};

/** One reason says enough: a field that is missing need not also be told to be short text. */
function reasonsOf({ constraints = {}, property, value }: ValidationError): string[] {
  const [first] = Object.entries(constraints);
  if (first === undefined) return [];
  const [rule, message] = first;
  if (value === undefined && rule !== 'whitelistValidation') return ['is missing'];
  const plain = PLAIN_REASONS[rule];
  if (plain !== undefined) return [plain];
  return [message.startsWith(`${property} `) ? message.slice(property.length + 1) : message];
}
