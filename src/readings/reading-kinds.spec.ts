import { describe, expect, it } from '@jest/globals';
import { READING_KINDS, type ReadingKind, readUnit } from './reading-kinds.js';

describe('readUnit', () => {
  it.each<[ReadingKind, string | null, string]>([
    ['supply-volts', null, 'V'],
    ['loop-ohms', 'ohm', 'ohm'],
    ['insulation-megohms', ' ', 'Mohm'],
    ['sound-level-db', null, 'dB'],
    ['sound-level-db', 'dB(A)', 'dB(A)'],
    ['other', ' lux ', 'lux'],
  ])('reads the unit of %s, given %j, as %s', (kind, given, unit) => {
    expect(readUnit(kind, given)).toEqual({ unit });
  });

  it.each<[ReadingKind, string | null, string]>([
    ['supply-volts', 'mV', 'of supply-volts can be: V'],
    ['sound-level-db', 'dba', 'of sound-level-db can be: dB, dB(A), dB(C)'],
    ['other', null, 'is missing: say what it was measured in'],
  ])('refuses for %s the unit %j', (kind, given, reason) => {
    expect(readUnit(kind, given)).toEqual({ reason });
  });

  it('knows a usual unit for every kind but one', () => {
    const without = READING_KINDS.filter((kind) => 'reason' in readUnit(kind, null));
    expect(without).toEqual(['other']);
  });
});
