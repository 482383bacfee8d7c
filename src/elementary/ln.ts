/** ln 2 in two parts: whole multiples of the first are exact. */
export const LN2_HIGH = 6.9314718036912381649e-1;
export const LN2_LOW = 1.90821492927058770002e-10;

const bits = new Float64Array(1);
/** The words of it: the second is the high one where numbers are kept as on all machines that run browsers (little-endian). */
const words = new Int32Array(bits.buffer);

const NORMAL_FROM = 2 ** -1022;
const TWO_TO_54 = 2 ** 54;
const FRACTION = 0x000fffff;
/** By what each exponent, as numbers carry it, is brought down to that of 1. */
const DOWN_BY = Float64Array.from({ length: 2048 }, (_, exponent) => 2 ** (1023 - exponent));

/**
 * Natural logarithm, the same bits on every engine (see exp.ts); the error is below one unit in the last place. After fdlibm's e_log.c
 * (Sun Microsystems 1993, freely granted): x = 2^k (1 + f) with sqrt(2)/2 < 1 + f < sqrt(2), and log(1 + f) by s = f / (2 + f).
 */
export function ln(x: number): number {
  if (!(x > 0)) return x === 0 ? -Infinity : NaN;
  if (x === Infinity) return x;
  const isNormal = x >= NORMAL_FROM;
  bits[0] = isNormal ? x : x * TWO_TO_54;
  const highWord = words[1] as number;
  const fraction = highWord & FRACTION;
  const exponent = (highWord >> 20) + ((fraction + 0x95f64) >> 20);
  const f = bits[0] * (DOWN_BY[exponent] as number) - 1;
  const k = exponent - (isNormal ? 1023 : 1077);
  const high = k * LN2_HIGH;
  const low = k * LN2_LOW;
  if ((FRACTION & (2 + fraction)) < 3) return nearPower(f, high, low);
  const s = f / (2 + f);
  const z = s * s;
  const w = z * z;
  const odd =
    z *
    (6.66666666666673513e-1 +
      w * (2.857142874366239149e-1 + w * (1.818357216161805012e-1 + w * 1.479819860511658591e-1)));
  const even =
    w * (3.999999999940941908e-1 + w * (2.222219843214978396e-1 + w * 1.531383769920937332e-1));
  const rest = even + odd;
  // Only there the square is taken out, as it would cost digits elsewhere.
  if (((fraction - 0x6147a) | (0x6b851 - fraction)) > 0) {
    const halfSquare = 0.5 * f * f;
    return high - (halfSquare - (s * (halfSquare + rest) + low) - f);
  }
  return high - (s * (f - rest) - low - f);
}

/** Within 2^-20 of a power of two the series is over soon. */
function nearPower(f: number, high: number, low: number): number {
  if (f === 0) return high + low;
  const rest = f * f * (0.5 - (1 / 3) * f);
  return high - (rest - low - f);
}

/**
 * Logarithm of 1 + x, also where x is next to nothing: to five units in the last place, by theorem 4 of D. Goldberg, What Every Computer
 * Scientist Should Know About Floating-Point Arithmetic (1991).
 */
export function log1p(x: number): number {
  const sum = 1 + x;
  if (sum === 1) return x;
  return sum === Infinity ? sum : ln(sum) * (x / (sum - 1));
}

/** In bits: whole for whole powers of two. */
export function log2(x: number): number {
  return ln(x) / Math.LN2;
}
