/** How the posterior of a class of modes is divided among its modes: by their rates, as in the prior. */
export interface ModeSplit {
  readonly names: readonly string[];
  /** The class of each mode, and its share of the class. */
  readonly classes: readonly number[];
  readonly shares: readonly number[];
  /** What splitModes gives, with other numbers: a copy of it is made much faster than what gets its names one by one. */
  readonly form: Readonly<Record<string, number>>;
}

/** No whole number: else the engine would take it that no other is ever put there. */
const ANY = 0.5;

/**
 * For the modes that a rate table has. Within one component the shares depend on rates only: exposure and metres
 * multiply all modes alike.
 */
export function modeSplit<Mode extends string>(
  rates: Readonly<Partial<Record<Mode, number>>>,
  modes: readonly Mode[],
  classOf: ArrayLike<number>,
): ModeSplit {
  const totals = new Map<number, number>();
  const listed = modes.flatMap((name, m) => {
    const rate = rates[name];
    const of = classOf[m];
    if (rate === undefined || of === undefined) return [];
    totals.set(of, (totals.get(of) ?? 0) + rate);
    return [{ name, rate, of }];
  });
  return {
    names: listed.map((mode) => mode.name),
    classes: listed.map((mode) => mode.of),
    shares: listed.map(({ rate, of }) => (rate > 0 ? rate / (totals.get(of) ?? rate) : 0)),
    form: { ok: ANY, ...Object.fromEntries(listed.map(({ name }) => [name, ANY])) },
  };
}

/** P(mode | evidence) by name, `ok` first; the masses of the classes begin at `from`. */
export function splitModes(
  split: ModeSplit,
  ok: number,
  masses: ArrayLike<number>,
  from = 0,
): Record<string, number> {
  const chances: Record<string, number> = { ...split.form };
  chances.ok = ok;
  for (let m = 0; m < split.names.length; m++)
    chances[split.names[m] ?? ''] =
      (masses[from + (split.classes[m] ?? 0)] ?? 0) * (split.shares[m] ?? 0);
  return chances;
}
