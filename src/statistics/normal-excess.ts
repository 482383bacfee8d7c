import jstat from 'jstat';

/** Beyond so many deviations there is nothing left to count. */
const FAR = 8;

/** P(X > 0) of a normal X. Deviation 0: whether the mean is. */
export function chanceAboveZero(mean: number, deviation: number): number {
  if (deviation <= 0 || Math.abs(mean) > FAR * deviation) return mean > 0 ? 1 : 0;
  return jstat.normal.cdf(mean / deviation, 0, 1);
}

/** E[max(0, X)] of a normal X (C. E. Clark, Operations Research 9(2), 1961; memory). Never falls as either grows. */
export function expectedExcess(mean: number, deviation: number): number {
  if (deviation <= 0 || Math.abs(mean) > FAR * deviation) return Math.max(0, mean);
  return mean * chanceAboveZero(mean, deviation) + deviation * density(mean / deviation);
}

/** Var[max(0, X)] of a normal X (as above). Never falls as either grows. */
export function varianceOfExcess(mean: number, deviation: number): number {
  if (deviation <= 0 || mean < -FAR * deviation) return 0;
  if (mean > FAR * deviation) return deviation ** 2;
  const square =
    (mean ** 2 + deviation ** 2) * chanceAboveZero(mean, deviation) +
    mean * deviation * density(mean / deviation);
  return Math.max(0, square - expectedExcess(mean, deviation) ** 2);
}

function density(at: number): number {
  return Math.exp(-(at ** 2) / 2) / Math.sqrt(2 * Math.PI);
}
