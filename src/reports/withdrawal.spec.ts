import { describe, expect, it } from '@jest/globals';
import { stands, withWithdrawals } from './withdrawal.js';

const entry = {
  id: 'entry',
  saidBy: 'Ilvo Marsh',
  saidByKind: 'technician',
  happenedAt: new Date(1),
  recordedAt: new Date(2),
};

describe('withdrawals', () => {
  it('are told beside what they withdrew, and of nothing else', () => {
    const rows = [
      { id: 'wrong', firmId: 'firm', withdrawalId: 'entry', period: 0 },
      { id: 'right', firmId: 'firm', withdrawalId: null, period: 0 },
    ];
    const details = { readingIds: ['wrong'], reason: 'Read in Room 5' };
    expect(withWithdrawals(rows, [{ ...entry, details }])).toEqual([
      { id: 'wrong', period: 0, withdrawal: { ...entry, reason: 'Read in Room 5' } },
      { id: 'right', period: 0, withdrawal: null },
    ]);
    expect(rows.map(stands)).toEqual([false, true]);
  });
});
