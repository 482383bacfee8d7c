import { describe, expect, it } from '@jest/globals';
import { numberTyped, PAD, press, usualUncertainty } from './typed-number.js';

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
