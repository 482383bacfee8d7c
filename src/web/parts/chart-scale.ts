/** Where an axis that begins at zero is marked: steps of 1, 2 or 5 times a power of ten, at most six, the last beyond `most`. */
export function ticksTo(most: number): number[] {
  const end = most > 0 ? most : 1;
  const power = 10 ** Math.floor(Math.log10(end / 5));
  const step = [1, 2, 5, 10].map((times) => times * power).find((one) => end / one <= 5) ?? end;
  const count = Math.ceil(Number((end / step).toPrecision(12)));
  return Array.from({ length: count + 1 }, (_, i) => Number((i * step).toPrecision(12)));
}

/** The same for what is counted: no marks between whole numbers. */
export function wholeTicksTo(most: number): number[] {
  const ticks = ticksTo(most).filter(Number.isInteger);
  return ticks.length > 1 && (ticks.at(-1) ?? 0) >= most ? ticks : [0, Math.ceil(most) || 1];
}
