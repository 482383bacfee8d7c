import { describe, expect, it } from '@jest/globals';
import { AnswersNotWanted } from './answers-not-wanted.js';

describe('kept answers that are not read', () => {
  it('are those that are over, and those that are at hand as long as they are', () => {
    const atHand = new Set(['key']);
    const notWanted = new AnswersNotWanted((key) => atHand.has(key));
    expect(notWanted.of('ticket')).toEqual([]);
    notWanted.add('ticket', { over: 'first' });
    expect(notWanted.of('ticket')).toEqual(['first']);
    notWanted.add('ticket', { atHand: { fingerprint: 'second', key: 'key' } });
    expect(notWanted.of('ticket')).toEqual(['first', 'second']);
    notWanted.add('ticket', { over: 'other' });
    atHand.clear();
    expect(notWanted.of('ticket')).toEqual(['other']);
  });

  it('are remembered of 1,000 tickets', () => {
    const notWanted = new AnswersNotWanted(() => true);
    for (let ticket = 0; ticket < 3500; ticket++) notWanted.add(`${ticket % 3000}`, { over: 'x' });
    const known = Array.from({ length: 3000 }, (_, n) => notWanted.of(`${n}`)).flat();
    expect(known).toHaveLength(1000);
    const of = ['499', '2999', '2499'].map((ticket) => notWanted.of(ticket));
    expect(of).toEqual([['x'], ['x'], []]);
  });
});
