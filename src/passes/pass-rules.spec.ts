import { describe, expect, it } from '@jest/globals';
import { dayAt } from './pass-rules.js';

describe('dayAt', () => {
  it('is the day that the site has, not Greenwich', () => {
    const instant = new Date('2026-03-02T23:30:00Z');
    expect(dayAt(instant, 'Etc/UTC')).toBe('2026-03-02');
    expect(dayAt(instant, 'Asia/Kolkata')).toBe('2026-03-03');
    expect(dayAt(instant, 'America/Bogota')).toBe('2026-03-02');
  });
});
