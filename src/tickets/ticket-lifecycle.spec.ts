import { describe, expect, it } from '@jest/globals';
import { ticketMovesFrom, OPEN_STATES, TICKET_MOVES, TICKET_STATES } from './ticket-lifecycle.js';

describe('the lifecycle of a ticket', () => {
  it('names only states that it has', () => {
    const named = Object.values(TICKET_MOVES).flat();
    expect(named.filter((state) => !TICKET_STATES.includes(state))).toEqual([]);
  });

  it('lets every open state end, and every ended one be taken up again', () => {
    for (const state of OPEN_STATES) {
      expect(ticketMovesFrom(state)).toEqual(expect.arrayContaining(['closed', 'merged']));
    }
    expect(ticketMovesFrom('closed')).toEqual(['reported']);
    expect(ticketMovesFrom('merged')).toEqual(['reported']);
  });

  it('goes nowhere from a state to itself', () => {
    expect(TICKET_STATES.filter((state) => ticketMovesFrom(state).includes(state))).toEqual([]);
  });
});
