import { describe, expect, it } from '@jest/globals';
import type { Heard } from './observation.js';
import { saidToWork, stillToProve } from './still-to-prove.js';

const heard = (minute: number, more: Partial<Heard>): Heard => ({
  id: String(minute),
  trunk: 'A',
  node: 'A1',
  function: 'bell',
  outcome: 'fails',
  saidBy: 'office',
  saidByKind: 'office',
  how: 'gone-through',
  observedAt: new Date(Date.UTC(2026, 0, 1, 8, minute)),
  period: 0,
  withdrawalId: null,
  ...more,
});
const tested = (minute: number, more: Partial<Heard>) =>
  heard(minute, { how: 'walk-test', outcome: 'works', period: 1, ...more });

describe('stillToProve', () => {
  const bell = { trunk: 'A', node: 'A1', function: 'bell' };

  it('asks for every reported function, weak ones too, and not for those that worked', () => {
    const all = [
      heard(0, {}),
      heard(1, { node: 'A2', outcome: 'weak' }),
      heard(2, { node: 'A3', outcome: 'works' }),
    ];
    expect(stillToProve(all, 0)).toEqual([bell, { ...bell, node: 'A2' }]);
  });

  it('is satisfied by a walk test after the last mending', () => {
    expect(stillToProve([heard(0, {}), tested(5, {})], 1)).toEqual([]);
  });

  it('is not satisfied by a room that was just heard, nor by a walk test before the mending', () => {
    expect(stillToProve([heard(0, {}), heard(5, { outcome: 'works', period: 1 })], 1)).toEqual([
      bell,
    ]);
    expect(stillToProve([heard(0, {}), tested(5, {})], 2)).toEqual([bell]);
  });

  it('asks again when it fails after the walk test, whatever the order it is given in', () => {
    expect(stillToProve([heard(9, { period: 1 }), heard(0, {}), tested(5, {})], 1)).toEqual([bell]);
  });
});

describe('saidToWork', () => {
  it('is of what is to be proven what was last said to work, whoever said otherwise before', () => {
    const all = [
      heard(9, { outcome: 'works' }),
      heard(0, {}),
      heard(0, { node: 'A2' }),
      heard(1, { node: 'A3', outcome: 'works' }),
      heard(2, { node: 'A3', outcome: 'weak' }),
      heard(3, { node: 'A4', outcome: 'works' }),
    ];
    expect(saidToWork(all, stillToProve(all, 0))).toEqual([
      { trunk: 'A', node: 'A1', function: 'bell' },
    ]);
  });
});
