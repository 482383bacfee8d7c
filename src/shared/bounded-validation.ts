import { validate, type ValidationError, type ValidatorOptions } from 'class-validator';

/** So many elements of a list are checked before what was found wrong is counted. */
const AT_ONCE = 100;

/** A list whose elements the library does not go into: they are checked apart. */
class Unopened extends Array<unknown> {
  override forEach(): void {
    // It visits elements by this, and by nothing else.
  }
}

export interface FoundWrong {
  errors: ValidationError[];
  /** Whether there may be more: the rest was not looked at. */
  endedEarly: boolean;
}

/**
 * Checks an object against its class, and the elements of its long lists only until `most` things are wrong with them:
 * the library would go through thousands of them to tell of a hundred.
 */
export async function validateBounded(
  object: object,
  options: ValidatorOptions,
  most: number,
): Promise<FoundWrong> {
  const lists = Object.entries(object).filter((entry): entry is [string, object[]] =>
    isLongList(entry[1]),
  );
  const errors = await validateWith(object, lists.map(shut), options);
  const wrong = new Set(errors.map(({ property }) => property));
  let found = errors.reduce(countLeaves, 0);
  for (const [property, list] of lists) {
    for (let at = 0; at < list.length && !wrong.has(property); at += AT_ONCE) {
      if (found >= most) return { errors, endedEarly: true };
      const chunk = { [property]: list.slice(at, at + AT_ONCE) };
      // That all else is missing is not asked.
      const all = await validate(Object.assign(withoutFields(object), chunk), options);
      const own = all.filter((error) => error.property === property);
      for (const { children = [] } of own)
        for (const child of children) child.property = String(Number(child.property) + at);
      errors.push(...own);
      found = own.reduce(countLeaves, found);
    }
  }
  return { errors, endedEarly: false };
}

function isLongList(value: unknown): boolean {
  return (
    Array.isArray(value) &&
    value.length > AT_ONCE &&
    value.some(
      (one: unknown) => typeof one === 'object' && one !== null && one.constructor !== Object,
    )
  );
}

function shut([property, list]: [string, object[]]): [string, unknown] {
  return [property, Unopened.from(list)];
}

/** With these fields in place of the object's own, which it has again afterwards. */
async function validateWith(
  object: object,
  fields: [string, unknown][],
  options: ValidatorOptions,
): Promise<ValidationError[]> {
  const own = { ...object };
  Object.assign(object, Object.fromEntries(fields));
  try {
    return await validate(object, options);
  } finally {
    for (const [property] of fields) Reflect.set(object, property, Reflect.get(own, property));
  }
}

function withoutFields(object: object): object {
  return Object.create(Object.getPrototypeOf(object) as object | null) as object;
}

function countLeaves(sum: number, { constraints, children = [] }: ValidationError): number {
  return children.reduce(countLeaves, sum + (constraints === undefined ? 0 : 1));
}
