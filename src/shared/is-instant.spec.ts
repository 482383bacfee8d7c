import { describe, expect, it } from '@jest/globals';
import { readInstant } from './is-instant.js';

describe('readInstant', () => {
  it.each([
    ['2026-05-04T09:30:00+02:00', '2026-05-04T07:30:00.000Z'],
    ['2026-05-04T07:30:00Z', '2026-05-04T07:30:00.000Z'],
    ['2026-05-04t07:30:00.25z', '2026-05-04T07:30:00.250Z'],
    ['2024-02-29T23:59:59-03:30', '2024-03-01T03:29:59.000Z'],
  ])('reads %s', (text, instant) => {
    expect(readInstant(text)?.toISOString()).toBe(instant);
  });

  it.each([
    '2026-05-04T09:30:00',
    '2026-05-04 09:30:00Z',
    '2026-05-04T09:30Z',
    '2026-05-04',
    '2026-02-30T09:30:00Z',
    '2026-05-04T24:00:00Z',
    '2026-05-04T09:60:00Z',
    '2026-05-04T09:30:00+25:00',
    '0001-01-01T00:00:00Z',
    '+275000-01-01T00:00:00Z',
    '4 May 2026 09:30 UTC',
    'now',
    '',
  ])('refuses %j', (text) => {
    expect(readInstant(text)).toBeUndefined();
  });
});
