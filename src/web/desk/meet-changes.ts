type Fields = Readonly<Record<string, unknown>>;

export interface Met<Draft> {
  draft: Draft;
  /** What two changed at once and each otherwise; `draft` has it as it was typed here. */
  both: (keyof Draft & string)[];
}

/**
 * What was typed, on top of what somebody else saved meanwhile: what was not touched here is as they left it, what was
 * touched stays. `base`: what the typing began from.
 */
export function meetChanges<Draft extends object>(
  base: Draft,
  typed: Draft,
  theirs: Draft,
): Met<Draft> {
  const both: Met<Draft>['both'] = [];
  const met = Object.keys(typed).map((name) => {
    const [was, here, there] = [base, typed, theirs].map((one) => (one as Fields)[name]);
    if (isRecord(was) && isRecord(here) && isRecord(there)) {
      const names = new Set([...Object.keys(was), ...Object.keys(here), ...Object.keys(there)]);
      const of = (one: Fields) => Object.fromEntries([...names].map((key) => [key, one[key]]));
      const inner = meetChanges(of(was), of(here), of(there));
      if (inner.both.length > 0) both.push(name as keyof Draft & string);
      return [name, inner.draft];
    }
    if (isSame(was, here)) return [name, there];
    if (!isSame(was, there) && !isSame(here, there)) both.push(name as keyof Draft & string);
    return [name, here];
  });
  return { draft: Object.fromEntries(met) as Draft, both };
}

function isRecord(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isSame(one: unknown, other: unknown): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}
