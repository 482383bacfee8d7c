import { describe, expect, it } from '@jest/globals';
import { seededRandom } from '../statistics/seeded-random.js';
import { exp, expm1 } from './exp.js';
import { power } from './power.js';
import { ln, log1p, log2 } from './ln.js';

/** A number as it is kept, in hexadecimal. */
function bitsOf(x: number): string {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, x);
  return view.getBigUint64(0).toString(16).padStart(16, '0');
}

/** How far apart, in units of the last place. */
function unitsBetween(a: number, b: number): number {
  const unit = Math.max(Math.abs(b) * 2 ** -52, 2 ** -1074);
  return Object.is(a, b) ? 0 : Math.abs(a - b) / unit;
}

describe('elementary functions', () => {
  // As Node 20.20 has them, which goes by fdlibm; of the first six of each Chromium 156 has other last digits.
  it.each([
    [-34.8231, '3ccb1ccce5a7f260'],
    [-12.9237, '3ec476e0b8a0dc86'],
    [-24.4436, '3dbaa2f9fc2ddef8'],
    [-30.134, '3d3709410b600736'],
    [-14.7909, '3e994d97975ea840'],
    [-30.0837, '3d383979119bde42'],
    [0, '3ff0000000000000'],
    [1, '4005bf0a8b145769'],
    [709.7, '7fed75ae7a50ee14'],
    [-745.1, '0000000000000001'],
  ])('exp(%d) is the same on every engine', (x, bits) => {
    expect(bitsOf(exp(x))).toBe(bits);
  });

  it.each([
    [0.37926, 'bfef066aaf5f45f4'],
    [0.409702, 'bfec8ded9acebbae'],
    [0.158566, 'bffd77212bbc0b00'],
    [0.831297, 'bfc7a67b8ee7e67e'],
    [0.371217, 'bfefb60388894480'],
    [0.159881, 'bffd554d1c07b378'],
    [0.5, 'bfe62e42fefa39ef'],
    [1.0000000009313226, '3e0fffffffc00000'],
    [5e-324, 'c0874385446d71c3'],
    [1e308, '40862991d5d62a5e'],
  ])('ln(%d) is the same on every engine', (x, bits) => {
    expect(bitsOf(ln(x))).toBe(bits);
  });

  it.each([
    [exp, [0, -0, 710, -746, Infinity, -Infinity, NaN], [1, 1, Infinity, 0, Infinity, 0, NaN]],
    [expm1, [0, -0, 1e-20, 710, -800, NaN], [0, -0, 1e-20, Infinity, -1, NaN]],
    [ln, [0, -0, 1, -1, Infinity, NaN], [-Infinity, -Infinity, 0, NaN, Infinity, NaN]],
    [log1p, [0, -0, 1e-20, -1, -2, Infinity], [0, -0, 1e-20, -Infinity, NaN, Infinity]],
    [log2, [1, 2, 0.5, 0.125, 2 ** 40, 0], [0, 1, -1, -3, 40, -Infinity]],
  ])('%p has the limits that ECMA-262 gives', (of, from, to) => {
    expect(from.map((x) => of(x))).toEqual(to);
  });

  it('multiply, where a number is taken to a whole power', () => {
    expect([power(1 / 3, 0), power(0.4, 1), power(0.995, 3)]).toEqual([
      1,
      0.4,
      0.995 * 0.995 * 0.995,
    ]);
    expect(power(0.005, 200)).toBe(0);
  });

  it('are where the engine’s own are, within its rounding and theirs', () => {
    const random = seededRandom(7);
    const furthest = { exp: 0, expm1: 0, ln: 0, log1p: 0 };
    const meet = (name: keyof typeof furthest, own: number, engines: number) =>
      (furthest[name] = Math.max(furthest[name], unitsBetween(own, engines)));
    for (let at = 0; at < 40_000; at++) {
      const x = (random() - 0.5) * [1, 4, 100, 1480][at % 4]!;
      meet('exp', exp(x), Math.exp(x));
      meet('expm1', expm1(x), Math.expm1(x));
      const y = 2 ** ((random() - 0.5) * [0.1, 4, 200, 2140][at % 4]!);
      meet('ln', ln(y), Math.log(y));
      meet('log1p', log1p(y), Math.log1p(y));
      meet('log1p', log1p(-y / (1 + y)), Math.log1p(-y / (1 + y)));
    }
    expect(furthest.exp).toBeLessThanOrEqual(2);
    expect(furthest.ln).toBeLessThanOrEqual(2);
    expect(furthest.expm1).toBeLessThanOrEqual(6);
    expect(furthest.log1p).toBeLessThanOrEqual(6);
  });
});
