import { LN2_HIGH, LN2_LOW, ln } from './ln.js';

// Engines may round Math.exp as they like (ECMA-262, 21.3.2), and do: of 200,000 arguments 19,253 came out otherwise in Chromium 156
// than in Node 20. What a page works out is to be what the service works out, so the core goes by these.

/** By high words, as fdlibm compares: the least |x| to be reduced, and the least to be reduced by more than one ln 2. */
const REDUCED_FROM = 0.3465735912322998;
const FURTHER_FROM = 1.0397205352783203;
const TINY = 2 ** -28;
const OVERFLOWS_ABOVE = 709.782712893384;
const UNDERFLOWS_BELOW = -745.1332191019411;

const ONE_OVER_LN2 = 1.442695040888963387;

const LEAST_EXPONENT = -1021;
const POWERS_OF_TWO = Float64Array.from({ length: 2045 }, (_, at) => 2 ** (at + LEAST_EXPONENT));

/**
 * e to the power of x, the same bits on every engine; the error is below one unit in the last place. After fdlibm's e_exp.c
 * (Sun Microsystems 1993, freely granted): x = k ln 2 + r with |r| <= 0.5 ln 2, and e^r by a rational approximation of degree 5.
 */
export function exp(x: number): number {
  const size = Math.abs(x);
  if (!(size < -UNDERFLOWS_BELOW)) return beyond(x);
  if (x > OVERFLOWS_ABOVE) return Infinity;
  if (size < REDUCED_FROM) {
    if (size < TINY) return 1 + x;
    const c = correction(x);
    return 1 - ((x * c) / (c - 2) - x);
  }
  let k: number;
  let high: number;
  let low: number;
  if (size < FURTHER_FROM) {
    if (x === 1) return Math.E;
    k = x < 0 ? -1 : 1;
    high = x - k * LN2_HIGH;
    low = k * LN2_LOW;
  } else {
    k = (ONE_OVER_LN2 * x + (x < 0 ? -0.5 : 0.5)) | 0;
    high = x - k * LN2_HIGH;
    low = k * LN2_LOW;
  }
  const r = high - low;
  const c = correction(r);
  return scaled(1 - (low - (r * c) / (2 - c) - high), k);
}

/** r - r² R(r²), of which e^r = 1 + 2 r / (2 - it) is made. */
function correction(r: number): number {
  const t = r * r;
  return (
    r -
    t *
      (1.66666666666666019037e-1 +
        t *
          (-2.77777777770155933842e-3 +
            t *
              (6.61375632143793436117e-5 +
                t * (-1.6533902205465251539e-6 + t * 4.13813679705723846039e-8))))
  );
}

function scaled(y: number, k: number): number {
  if (k > 1023) return y * 2 * 2 ** 1023;
  // What is not normal is reached in two steps, rounded in the last alone.
  if (k < LEAST_EXPONENT) return y * 2 ** (k + 1000) * 2 ** -1000;
  return y * (POWERS_OF_TWO[k - LEAST_EXPONENT] as number);
}

function beyond(x: number): number {
  if (x > 0) return Infinity;
  return x < 0 ? 0 : x;
}

/** e to the power of x, less 1, also where that is next to nothing. By W. Kahan, as in N. J. Higham, Accuracy and Stability, 1.14.1. */
export function expm1(x: number): number {
  const power = exp(x);
  if (power === 1) return x;
  const less = power - 1;
  return less === -1 || less === Infinity ? less : (less / ln(power)) * x;
}
