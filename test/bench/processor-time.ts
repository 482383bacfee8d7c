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
 * What the processor itself gives at the moment: a hundred million additions in a row take some 130 ms of a core of 3 GHz by
 * itself, and several times that where caches and cores are shared with other work. Figures of two runs compare by it.
 */
export function fixedLoopMilliseconds(): number {
  const table = new Float64Array(1000).fill(1.5);
  let sum = 0;
  const loop = () => {
    for (let round = 0; round < 100_000; round++)
      for (let i = 0; i < table.length; i++) sum += (table[i] ?? 0) * 1.1;
  };
  const [, median = NaN] = processorTimes(3, loop);
  if (!(sum > 0)) throw new Error('the loop was not run');
  return median;
}
