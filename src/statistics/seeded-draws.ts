import { seededRandom } from './seeded-random.js';

/** Draws from distributions, the same for the same seed. */
export interface SeededDraws {
  normal: () => number;
  /** Mean shape / rate. */
  gamma: (shape: number, rate: number) => number;
  beta: (one: number, other: number) => number;
  poisson: (mean: number) => number;
}

/** So much of a Poisson mean at a time: the product below must not vanish. */
const LARGEST_STEP = 200;

export function seededDraws(seed: number): SeededDraws {
  const uniform = seededRandom(seed);
  /** Never 0, whose logarithm is infinite. */
  const positive = () => 1 - uniform();
  const normal = () => Math.sqrt(-2 * Math.log(positive())) * Math.cos(2 * Math.PI * uniform());

  /** Marsaglia and Tsang 2000 (memory); below shape 1 by one of shape + 1 and a power of a uniform. */
  const gamma = (shape: number, rate: number): number => {
    if (shape < 1) return gamma(shape + 1, rate) * positive() ** (1 / shape);
    const d = shape - 1 / 3;
    const c = 1 / Math.sqrt(9 * d);
    for (;;) {
      const x = normal();
      const v = (1 + c * x) ** 3;
      if (v > 0 && Math.log(positive()) < x * x * 0.5 + d - d * v + d * Math.log(v)) {
        return (d * v) / rate;
      }
    }
  };

  /** Uniforms are multiplied until the product is below e^-mean. */
  const poisson = (mean: number): number => {
    let count = 0;
    for (let left = mean; left > 0; left -= LARGEST_STEP) {
      const limit = Math.exp(-Math.min(left, LARGEST_STEP));
      for (let product = positive(); product > limit; product *= positive()) count++;
    }
    return count;
  };

  return {
    normal,
    gamma,
    beta: (one, other) => {
      const first = gamma(one, 1);
      return first / (first + gamma(other, 1));
    },
    poisson,
  };
}
