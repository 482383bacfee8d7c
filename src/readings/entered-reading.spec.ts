import { describe, expect, it } from '@jest/globals';
import { ENTERED_KINDS, type EnteredKind, parseReading, readUnit } from './entered-reading.js';

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

describe('readUnit', () => {
  it.each<[EnteredKind, string | null, string]>([
    ['supply-volts', null, 'V'],
    ['loop-ohms', 'ohm', 'ohm'],
    ['insulation-megohms', ' ', 'Mohm'],
    ['sound-level-db', null, 'dB'],
    ['sound-level-db', 'dB(A)', 'dB(A)'],
    ['other', ' lux ', 'lux'],
  ])('reads the unit of %s, given %j, as %s', (kind, given, unit) => {
    expect(readUnit(kind, given)).toEqual({ unit });
  });

  it.each<[EnteredKind, string | null, string]>([
    ['supply-volts', 'mV', 'of supply-volts can be: V'],
    ['sound-level-db', 'dba', 'of sound-level-db can be: dB, dB(A), dB(C)'],
    ['other', null, 'is missing: say what it was measured in'],
  ])('refuses for %s the unit %j', (kind, given, reason) => {
    expect(readUnit(kind, given)).toEqual({ reason });
  });

  it('knows a usual unit for every kind but one', () => {
    const without = ENTERED_KINDS.filter((kind) => 'reason' in readUnit(kind, null));
    expect(without).toEqual(['other']);
  });
});
