/** Milliseconds of the processor of so many runs, ascending: the wait for a turn counts for nothing. */
export function processorTimes(runs: number, work: () => void): number[] {
  return Array.from({ length: runs }, () => {
    const before = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000;
  }).sort((a, b) => a - b);
}

/**
 * What the processor itself gives at the moment: a hundred million additions, each of which waits for the one before, take some
 * 80 ms where nothing else shares the core (measured on the 2.6 GHz machine that the decisions' figures are from), and more where caches and
 * cores are shared with other work. Figures of two runs compare by it.
 */
export function fixedLoopMilliseconds(): number {
  const table = new Float64Array(1000).fill(1.5);
  let sum = 0;
  // The first two are compiled while they run.
  const [quickest = NaN] = processorTimes(5, () => (sum += sumOver(table)));
  if (!(sum > 0)) throw new Error('the loop was not run');
  return quickest;
}

/** The sum is a variable of its own here: one that an inner function shares is a number on the heap, made anew by each addition. */
function sumOver(table: Float64Array): number {
  let sum = 0;
  for (let round = 0; round < 100_000; round++)
    for (let i = 0; i < table.length; i++) sum += (table[i] ?? 0) * 1.1;
  return sum;
}
