import { describe, expect, it } from '@jest/globals';
import { choosableLooks, type TakenLook } from './taken-look.js';

const DRAWING = {
  trunks: [
    {
      trunk: 'A',
      nodes: [
        {
          node: 'A1',
          kind: 'station' as const,
          fedFrom: null,
          cableMetres: 1,
          room: null,
          groups: ['ground', 'wing'],
        },
      ],
    },
  ],
};
const at = (minute: number) => new Date(Date.UTC(2026, 0, 1, 8, minute));
let made = 0;
const look = (more: Partial<TakenLook>): TakenLook => ({
  id: String(++made).padStart(4, '0'),
  place: { kind: 'head-end' },
  part: 'power',
  group: null,
  seen: 'sound',
  saidBy: 'Ilvo Marsh',
  saidByKind: 'technician',
  lookedAt: at(made),
  period: 0,
  withdrawalId: null,
  ...more,
});
const choose = (looks: TakenLook[], more: object = {}) =>
  choosableLooks(looks, {
    period: 0,
    closedAt: null,
    drawing: DRAWING,
    groups: new Set(['ground']),
    most: 3,
    ...more,
  });

describe('the looks that a location goes by', () => {
  it('are of one person the last at the same part, whatever came between', () => {
    const first = look({});
    const other = look({ saidBy: 'Osk Fell' });
    const part = look({ part: 'amplifier' });
    const last = look({ saidBy: ' ilvo  MARSH ', seen: 'faulty' });
    expect(choose([last, part, first, other])).toEqual({
      chosen: [other, part, last],
      leftOut: [{ id: first.id, why: { kind: 'looked-again' } }],
    });
  });

  it('are none withdrawn, of another period, from before a closing, or of what is not weighed', () => {
    const groups = ['ground', 'wing', null].map((group) => look({ part: 'group-off', group }));
    const looks = [
      look({ withdrawalId: 'entry', period: 5 }),
      look({ period: 0 }),
      look({ period: 2 }),
      look({ period: 1, lookedAt: at(0) }),
      look({ period: 1, place: { kind: 'station', trunk: 'A', node: 'A9' }, part: 'unit' }),
      ...groups.map((one) => ({ ...one, period: 1 })),
    ];
    const { chosen, leftOut } = choose(looks, { period: 1, closedAt: at(0) });
    expect(chosen.map(({ group }) => group)).toEqual(['ground']);
    const why = new Map(leftOut.map((one) => [one.id, one.why.kind]));
    expect(looks.map(({ id }) => why.get(id))).toEqual([
      'withdrawn',
      'before-mending',
      'after-mending',
      'before-closing',
      'no-such-place',
      undefined,
      'no-such-group',
      'no-such-group',
    ]);
  });

  it('are so many at most, the newest', () => {
    const looks = Array.from({ length: 10 }, (_, n) => look({ saidBy: `Person ${n}` }));
    const { chosen, leftOut } = choose(looks);
    expect(chosen).toEqual(looks.slice(-3));
    expect(leftOut.map(({ id }) => id)).toEqual(looks.slice(0, 7).map(({ id }) => id));
    expect(leftOut[0]!.why).toEqual({ kind: 'older', most: 3 });
  });
});
