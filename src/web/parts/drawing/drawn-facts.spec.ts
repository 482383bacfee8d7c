import { describe, expect, it } from '@jest/globals';
import { groupLetters, lastSaid } from './drawn-facts.js';

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

describe('groupLetters', () => {
  it('gives each group of the site one letter, by name', () => {
    const station = (node: string, groups: string[]) => ({
      ...{ node, groups, kind: 'station' as const, fedFrom: null },
      ...{ room: null, isOut: false, cableMetres: 1 },
    });
    const cables = [
      { trunk: 'A', name: '', nodes: [station('A1', ['staff', 'floor 10']), station('A2', [])] },
      { trunk: 'B', name: '', nodes: [station('B1', ['floor 2', 'staff'])] },
    ];
    expect([...groupLetters(cables)]).toEqual([
      ['floor 2', 'a'],
      ['floor 10', 'b'],
      ['staff', 'c'],
    ]);
    const many = Array.from({ length: 60 }, (_, i) => `group ${i}`);
    const letters = [
      ...groupLetters([{ trunk: 'A', name: '', nodes: [station('A1', many)] }]).values(),
    ];
    expect([letters[25], letters[26], letters[52]]).toEqual(['z', 'a2', 'a3']);
    expect(new Set(letters).size).toBe(60);
  });
});
