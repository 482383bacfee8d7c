import { describe, expect, it } from '@jest/globals';
import { parseReading } from './parse-reading.js';

describe('parseReading', () => {
  it.each([
    ['23.1', 23.1],
    ['23,1', 23.1],
    [' 0 ', 0],
    ['-0.02', -0.02],
    ['\u22124,5', -4.5],
    ['+7', 7],
    ['4.160', 4.16],
    ['0,482', 0.482],
    ['1234,567', 1234.567],
    ['200', 200],
  ])('reads %j as %d', (entered, value) => {
    expect(parseReading(entered)).toEqual({ value });
  });

  it.each([
    '',
    ' ',
    'open',
    '> 200',
    '1e3',
    'NaN',
    'Infinity',
    '1.2.3',
    '.5',
    '5.',
    '0x10',
    '12 V',
  ])('does not take %j for a number', (entered) => {
    expect(parseReading(entered)).toEqual({ reason: 'is not a number such as 23.1' });
  });

  it('does not guess whether a comma parts thousands', () => {
    expect(parseReading('1,200')).toEqual({
      reason: 'could be thousands or thousandths; write 1200 or 1.200',
    });
  });

  it('refuses more digits than a number can be', () => {
    expect(parseReading('9'.repeat(400))).toEqual({ reason: 'is too large to be a reading' });
  });
});
