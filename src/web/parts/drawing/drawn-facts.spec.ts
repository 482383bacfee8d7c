import { describe, expect, it } from '@jest/globals';
import { lastSaid } from './drawn-facts.js';

const said = (node: string, outcome: string, at: string, more: object = {}) => ({
  trunk: 'A',
  node,
  function: 'bell',
  outcome,
  observedAt: `2026-03-02T0${at}:00:00Z`,
  disconnectedBelow: null,
  withdrawal: null,
  ...more,
});

describe('lastSaid', () => {
  it('is the last word of each room, without what was taken back or heard while cable was off', () => {
    const told = [
      said('A1', 'fails', '9'),
      said('A1', 'works', '8'),
      said('A2', 'weak', '8'),
      said('A2', 'works', '9', { withdrawal: { reason: 'another room' } }),
      said('A3', 'works', '8', { disconnectedBelow: 'A4' }),
      said('A4', 'not-checked', '8'),
    ];
    expect(lastSaid(told).map(({ node, outcome }) => [node, outcome])).toEqual([
      ['A1', 'fails'],
      ['A2', 'weak'],
    ]);
  });
});
