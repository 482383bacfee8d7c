import { describe, expect, it } from '@jest/globals';
import {
  amountTyped,
  minutesTyped,
  numberTyped,
  PAD,
  press,
  usualUncertainty,
} from './typed-number.js';

const typed = (keys: string) =>
  [...keys].reduce((text, key) => press(text, key as (typeof PAD)[number]), '');

describe('the keypad', () => {
  it('makes numbers, with one point and what a meter shows', () => {
    expect(typed('23.41')).toBe('23.41');
    expect(typed('.5')).toBe('0.5');
    expect(typed('1.2.3')).toBe('1.23');
    expect(typed('12345678')).toBe('123456');
    expect(typed('23⌫⌫⌫7')).toBe('7');
  });

  it('tells what is no number yet', () => {
    expect([numberTyped(''), numberTyped('5.'), numberTyped('0.42')]).toEqual([null, 5, 0.42]);
  });

  it('knows how well a meter reads', () => {
    expect(usualUncertainty('supply-volts', 23.4)).toBe(0.23);
    expect(usualUncertainty('supply-volts', 0)).toBe(0.1);
    expect(usualUncertainty('loop-ohms', 412)).toBe(4.1);
  });
});

describe('a number that may be left out', () => {
  it('is whole minutes, as many as the service takes', () => {
    expect([minutesTyped(''), minutesTyped(' 35 '), minutesTyped('2880')]).toEqual([
      null,
      35,
      2880,
    ]);
    for (const typed of ['2881', '9999', '12345', '20,5', '20.5', '-5', 'abc'])
      expect([typed, minutesTyped(typed)]).toEqual([typed, undefined]);
  });

  it('is an amount, with a point or a comma', () => {
    expect([amountTyped(' '), amountTyped('0,2'), amountTyped('0.2')]).toEqual([null, 0.2, 0.2]);
    for (const typed of ['0', 'abc', '-1', '1e9', '0.2 V'])
      expect([typed, amountTyped(typed)]).toEqual([typed, undefined]);
  });
});
