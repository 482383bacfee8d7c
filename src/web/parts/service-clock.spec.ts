import { beforeEach, describe, expect, it } from '@jest/globals';
import { type Kept, keepIn } from './kept.js';
import { ServiceClock } from './service-clock.js';

const MINUTE = 60_000;
const NINE = Date.parse('2026-03-09T09:00:00Z');

describe('the clock of the service, on a phone', () => {
  let phone: number;
  let disk: Kept;
  const clock = () => new ServiceClock(disk, () => phone);
  const heardAt = (service: number) => clock().hear(new Date(service).toUTCString(), phone);

  beforeEach(() => {
    phone = NINE;
    disk = keepIn(() => {
      throw new Error('a disk of this test');
    });
  });

  it('is the phone’s own where nothing was heard, or where both agree but for some seconds', () => {
    expect([clock().now(), clock().aheadMs]).toEqual([NINE, 0]);
    heardAt(NINE - 50_000);
    expect([clock().now(), clock().aheadMs]).toEqual([NINE, 0]);
  });

  it.each([20, -20])('corrects a phone that is %i minutes ahead, and keeps that', (minutes) => {
    phone = NINE + minutes * MINUTE;
    heardAt(NINE);
    phone += 5 * MINUTE;
    const off = Math.abs(clock().now() - (NINE + 5 * MINUTE));
    expect(off).toBeLessThanOrEqual(1000);
    expect(Math.round(clock().aheadMs / MINUTE)).toBe(minutes);
  });

  it('takes a slow answer for no wrong clock: the service may have said it at any time meanwhile', () => {
    const askedAt = phone;
    phone += 3 * MINUTE;
    const saying = (at: number) => clock().hear(new Date(at).toUTCString(), askedAt);
    saying(askedAt);
    expect(clock().aheadMs).toBe(0);
    saying(phone);
    expect(clock().aheadMs).toBe(0);
    // Only what the wait does not account for is the clock's.
    saying(phone + 10 * MINUTE);
    expect(clock().aheadMs).toBe(-10 * MINUTE);
    saying(askedAt - 10 * MINUTE);
    expect(clock().aheadMs).toBe(10 * MINUTE - 1000);
  });

  it('agrees again once the phone was set right', () => {
    phone = NINE + 20 * MINUTE;
    heardAt(NINE);
    phone = NINE + MINUTE;
    heardAt(NINE + MINUTE);
    expect([clock().now(), clock().aheadMs]).toEqual([NINE + MINUTE, 0]);
  });

  it('gives instants in the order of entering, none before what was heard, though the phone forgets the year', () => {
    heardAt(NINE);
    phone += MINUTE;
    const before = clock().stamps(2);
    phone = 0;
    const after = clock().stamps(2);
    const all = [...before, ...after].map((at) => Date.parse(at));
    expect(all).toEqual([...new Set(all)].sort((a, b) => a - b));
    expect(all[0]).toBe(NINE + MINUTE);
    expect(clock().now()).toBe(all.at(-1));
  });

  it('goes by nothing where an answer names no time', () => {
    clock().hear(null, phone);
    clock().hear('soon', phone - 20 * MINUTE);
    expect(clock().aheadMs).toBe(0);
  });
});
