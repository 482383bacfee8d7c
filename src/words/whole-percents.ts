/**
 * Chances that add up to 1 as whole percents that add up to 100: rounded down, and what is missing given to the largest
 * remainders; of equal remainders to the first. Chances that add up to less than 1 add up to their sum, rounded.
 */
export function wholePercents(chances: readonly number[]): number[] {
  const exact = chances.map((chance) => 100 * chance);
  const percents = exact.map((value) => Math.floor(value + SLACK));
  const total = Math.round(exact.reduce((sum, value) => sum + value, 0));
  const missing = total - percents.reduce((sum, value) => sum + value, 0);
  const byRemainder = exact
    .map((value, index) => ({ index, remainder: value - (percents[index] ?? 0) }))
    .sort((a, b) => b.remainder - a.remainder || a.index - b.index);
  for (const { index } of byRemainder.slice(0, missing))
    percents[index] = (percents[index] ?? 0) + 1;
  return percents;
}

/** 100 × 0.29 is 28.999999999999996. */
const SLACK = 1e-9;
