import { describe, expect, it } from '@jest/globals';
import { exposureSince } from './exposure.js';

const openedAt = new Date('2026-03-02T12:00:00Z');

describe('exposureSince', () => {
  it('counts from the last proof, else from the installation, else a year', () => {
    const proven = new Date('2026-02-20T00:00:00Z');
    expect(exposureSince(openedAt, proven, '2020-01-01').days).toBe(10.5);
    expect(exposureSince(openedAt, null, '2026-03-01').days).toBe(1.5);
    expect(exposureSince(openedAt, null, null).days).toBe(365);
  });

  it('is never less than a day: nothing has a chance to fail in no time', () => {
    expect(exposureSince(openedAt, openedAt, null).days).toBe(1);
  });
});
