import { describe, expect, it } from '@jest/globals';
import type { Heard } from '../reports/observation.js';
import { sittingsOf } from './sittings.js';

const heard = (id: string, minute: number, more: Partial<Heard> = {}): Heard => ({
  id,
  trunk: 'A',
  node: '1',
  function: 'bell',
  outcome: 'fails',
  saidBy: 'Mara Quill',
  saidByKind: 'office',
  how: 'gone-through',
  observedAt: new Date(Date.UTC(2026, 0, 1, 8, minute)),
  period: 0,
  withdrawalId: null,
  ...more,
});
const numbers = (...all: Heard[]) => Object.fromEntries(sittingsOf(all));

describe('sittings', () => {
  it('go on as long as nobody pauses for more than half an hour', () => {
    expect(numbers(heard('c', 91), heard('a', 0), heard('b', 30), heard('d', 121))).toEqual({
      a: 0,
      b: 0,
      c: 1,
      d: 1,
    });
    expect(numbers()).toEqual({});
  });

  it('begin anew where a technician finds it changed, not where the office corrects itself', () => {
    const technician = { saidByKind: 'technician', saidBy: 'Ilvo Marsh' } as const;
    const works = { outcome: 'works' } as const;
    expect(
      numbers(heard('a', 0, technician), heard('b', 5, { ...technician, ...works })),
    ).toMatchObject({ a: 0, b: 1 });
    const elsewhere = heard('0', 5, { ...technician, node: '2' });
    const changed = heard('b', 5, { ...technician, ...works });
    expect(numbers(heard('a', 0, technician), elsewhere, changed)).toEqual({ a: 0, 0: 1, b: 1 });
    expect(numbers(heard('a', 0), heard('b', 5, works))).toEqual({ a: 0, b: 0 });
    expect(
      numbers(heard('a', 0), heard('b', 5, { ...technician, ...works }), heard('c', 6, technician)),
    ).toEqual({ a: 0, b: 0, c: 1 });
  });
});
