import { describe, expect, it } from '@jest/globals';
import { isSessionOver, isTouchDue } from './session-rules.js';

const at = (hours: number) => new Date(Date.UTC(2026, 2, 2, 0, hours * 60));

describe('isSessionOver', () => {
  it('ends a session that was not used for twelve hours', () => {
    const session = { lastSeenAt: at(0), endsAt: at(336) };
    expect(isSessionOver('session', session, at(11.9))).toBe(false);
    expect(isSessionOver('session', session, at(12))).toBe(true);
  });

  it('ends a session at its absolute end, however much it is used', () => {
    const session = { lastSeenAt: at(335.9), endsAt: at(336) };
    expect(isSessionOver('session', session, at(335.95))).toBe(false);
    expect(isSessionOver('session', session, at(336))).toBe(true);
  });

  it('ends a pass’s session after an hour unused', () => {
    const session = { lastSeenAt: at(0), endsAt: at(12) };
    expect(isSessionOver('pass', session, at(0.9))).toBe(false);
    expect(isSessionOver('pass', session, at(1))).toBe(true);
  });
});

describe('isTouchDue', () => {
  it('is due at first use and then every five minutes', () => {
    expect(isTouchDue(null, at(0))).toBe(true);
    expect(isTouchDue(at(0), at(0.08))).toBe(false);
    expect(isTouchDue(at(0), at(0.1))).toBe(true);
  });
});
