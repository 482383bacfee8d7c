import { describe, expect, it } from '@jest/globals';
import type { AsBuilt } from '../sites/as-built.js';
import { Beginnings } from './beginnings.js';
import type { LocatedTicket } from './ticket-facts.js';

describe('Beginnings', () => {
  const openedAt = new Date('2026-03-02T08:00:00Z');
  const ticket: LocatedTicket = {
    id: 't1',
    siteId: 's1',
    asBuiltVersion: 1,
    state: 'reported',
    openedAt,
    period: 0,
  };
  const drawing = { trunks: [] } as unknown as AsBuilt;
  const of = (beginnings: Beginnings, digest: string, heard = '[]') =>
    beginnings.of(digest, { ticket, drawing, texts: { heard, entries: '[]' } });

  it('go through what was said once, however often they are asked for', () => {
    const beginnings = new Beginnings();
    expect(of(beginnings, 'a')).toEqual(openedAt);
    expect(of(beginnings, 'a', 'not read again')).toEqual(openedAt);
    expect(() => of(beginnings, 'b', 'read')).toThrow(SyntaxError);
  });

  it('forget the oldest beyond a thousand', () => {
    const beginnings = new Beginnings();
    for (let i = 0; i <= 1_000; i++) of(beginnings, `d${i}`);
    expect(of(beginnings, 'd1', 'not read again')).toEqual(openedAt);
    expect(() => of(beginnings, 'd0', 'read again')).toThrow(SyntaxError);
  });
});
