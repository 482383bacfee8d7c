import { ValidateBy, type ValidationOptions } from 'class-validator';

/** Control characters, ends of lines, and marks that turn the direction of writing. */
const UNSEEN = /[\p{Cc}\p{Zl}\p{Zp}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/u;

/** What leaves nothing to be seen: blanks, what is joined or ignored, and two letters that are blank. */
const BLANK = /[\p{Z}\p{C}\p{Default_Ignorable_Code_Point}\u2800]/gu;

/** Why a text is no name, or null. */
export function refuseName(text: string): string | null {
  if (UNSEEN.test(text)) return 'must not hold control or direction marks';
  return text.replace(BLANK, '') === '' ? 'must not be blank' : null;
}

/** Validates a text by which somebody or something is called. */
export function IsName(options?: ValidationOptions): PropertyDecorator {
  return ValidateBy(
    {
      name: 'isName',
      validator: {
        validate: (value: unknown) => typeof value === 'string' && refuseName(value) === null,
        defaultMessage: (args) =>
          `$property ${refuseName(String(args?.value)) ?? 'must be a text'}`,
      },
    },
    options,
  );
}
