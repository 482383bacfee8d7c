import { describe, expect, it } from '@jest/globals';
import type { DrawnRecord } from '../sites/drawing.js';
import { MAX_DISCONNECTIONS_OF_ONE_TRUNK } from '../locator/index.js';
import { toEvidence } from './evidence.js';
import type { Heard } from '../reports/observation.js';
import { wordsIn } from '../words/index.js';

const EN = wordsIn('en');

const station = (node: string, fedFrom: string | null) => ({
  node,
  kind: 'station' as const,
  fedFrom,
  cableMetres: 10,
  room: null,
});
const drawing: DrawnRecord = {
  trunks: [{ trunk: 'A', nodes: [station('1', null), station('2', '1')] }],
};

let made = 0;
const heard = (more: Partial<Heard>): Heard => ({
  id: String(++made),
  trunk: 'A',
  node: '1',
  function: 'bell',
  outcome: 'fails',
  saidBy: 'Mara Quill',
  saidByKind: 'office',
  how: 'gone-through',
  observedAt: new Date(Date.UTC(2026, 0, 1, 8, made)),
  period: 0,
  withdrawalId: null,
  ...more,
});
const idsOf = (list: readonly { id: string }[]) => list.map(({ id }) => id);
const pose = (all: Heard[]) => toEvidence(drawing, all, null);

describe('toEvidence', () => {
  it('poses the drawing and who said what', () => {
    const { request } = pose([heard({ node: '2' })]);
    expect(request.trunks).toEqual([
      {
        id: 'A',
        nodes: [
          { id: '1', kind: 'station', fedFrom: null, cableMetres: 10 },
          { id: '2', kind: 'station', fedFrom: '1', cableMetres: 10 },
        ],
      },
    ]);
    expect(request.observations).toEqual([
      {
        trunk: 'A',
        node: '2',
        function: 'bell',
        outcome: 'fails',
        informant: { id: 'office mara quill', kind: 'office' },
      },
    ]);
    expect(request.unmentioned).toBeUndefined();
  });

  it('says why each thing that was said is not gone by', () => {
    const nodes = [
      { ...station('1', null), room: 'Room 1' },
      { ...station('2', '1'), isOut: true },
      { ...station('3', '2'), lacks: ['bell' as const] },
    ];
    const closedAt = new Date(Date.UTC(2026, 0, 1, 8));
    const why = [
      [{ withdrawalId: 'entry', period: 0 }, 'was withdrawn'],
      [{ observedAt: closedAt }, 'is from before the ticket was closed'],
      [{ period: 0 }, 'is from before a mending'],
      [
        { period: 2, outcome: 'works' },
        'is from after a mending, since which nothing was said not to work',
      ],
      [{ node: '9' }, 'is of 9, which the ticket’s drawing does not have'],
      [{ node: '2' }, '2 is bridged over or taken out, the record says'],
      [{ node: '3' }, 'the unit in 3 was never fitted for the bell'],
      [
        { disconnectedBelow: '9' },
        'was disconnected below 9, which the ticket’s drawing does not have',
      ],
      [{ outcome: 'works' }, 'was said again by the same person'],
    ] as const;
    const told = [...why.map(([more]) => heard({ period: 1, ...more })), heard({ period: 1 })];
    const { leftOut, used } = toEvidence({ trunks: [{ trunk: 'A', nodes }] }, told, closedAt);
    expect(used).toEqual(told.slice(-1));
    expect(leftOut.map(({ id, why: given }) => [id, EN.answer.leftOut(given)])).toEqual(
      why.map(([, reason], i) => [told[i]!.id, reason]),
    );
  });

  it('takes what is silent while a cable is off for no trouble, no mention, and no word about the whole trunk', () => {
    const off = { disconnectedBelow: '1', period: 1, how: 'gone-through' } as const;
    const whole = heard({ how: 'volunteered' });
    const { request, used, inSittings } = pose([
      whole,
      heard({ ...off, period: 0, observedAt: whole.observedAt }),
      heard(off),
    ]);
    expect(used).toHaveLength(2);
    expect(request.observations!.map((one) => one.disconnectedBelow)).toEqual([undefined, '1']);
    expect(request.unmentioned?.functions).toEqual(['bell']);
    expect(inSittings).toBeNull();
  });

  it('goes by the last places at which a trunk was disconnected, as many as the locator carries', () => {
    const whole = heard({});
    const most = MAX_DISCONNECTIONS_OF_ONE_TRUNK;
    const names = Array.from({ length: most + 2 }, (_, index) => String(index + 1));
    // The first place is said again at last, and so is one of the last.
    const places = [...names.slice(0, most), '1', String(most + 1)];
    const told = places.map((disconnectedBelow) => heard({ disconnectedBelow, node: '2' }));
    const nodes = names.map((node, index) => station(node, names[index - 1] ?? null));
    const { used, leftOut } = toEvidence(
      { trunks: [{ trunk: 'A', nodes }] },
      [whole, ...told],
      null,
    );
    const taken = used.map(({ disconnectedBelow }) => disconnectedBelow);
    expect(taken).toEqual([undefined, ...names.slice(2, most), '1', String(most + 1)]);
    expect(leftOut.map(({ why }) => EN.answer.leftOut(why))).toEqual([
      'was said again by the same person',
      `is beside the last ${most} places at which trunk A was disconnected, which are gone by`,
    ]);
  });

  it('poses groups and what is out or lacking, and leaves out what is said of the latter', () => {
    const [first, second] = [station('1', null), station('2', '1')];
    const trunks = [
      {
        trunk: 'A',
        nodes: [
          { ...first, groups: ['ground'], lacks: ['music' as const] },
          { ...second, isOut: true },
        ],
      },
    ];
    const [told, lacking, out] = [
      heard({}),
      heard({ function: 'music' }),
      heard({ node: '2', function: 'bell' }),
    ];
    const { request, used, leftOut } = toEvidence({ trunks }, [told, lacking, out], null);
    expect(request.trunks[0]?.nodes).toEqual([
      {
        id: '1',
        kind: 'station',
        fedFrom: null,
        cableMetres: 10,
        groups: ['ground'],
        lacks: ['music'],
      },
      { id: '2', kind: 'station', fedFrom: '1', cableMetres: 10, isOut: true },
    ]);
    expect(used).toEqual([told]);
    expect(idsOf(leftOut)).toEqual(idsOf([lacking, out]));
  });

  it('takes the last word of one person, and both words of two', () => {
    const first = heard({ outcome: 'works' });
    const last = heard({ saidBy: ' mara  QUILL ' });
    const other = heard({ saidBy: 'Tarn Oke' });
    const { used, leftOut } = pose([last, first, other]);
    expect(used).toEqual([last, other]);
    expect(idsOf(leftOut)).toEqual(idsOf([first]));
  });

  it('leaves out what was seen before a mending, unless nothing was wrong after it', () => {
    const before = heard({});
    const after = heard({ node: '2', period: 1 });
    expect(pose([before, after]).used).toEqual([after]);
    const works = heard({ node: '2', period: 1, outcome: 'works', how: 'walk-test' });
    expect(pose([before, works]).used).toEqual([before]);
  });

  it('leaves out what was withdrawn, and goes by what the same person said before', () => {
    const first = heard({ outcome: 'weak', how: 'volunteered' });
    const withdrawn = heard({ withdrawalId: 'w', period: 1 });
    const { used, leftOut, request } = pose([first, withdrawn]);
    expect(used).toEqual([first]);
    expect(idsOf(leftOut)).toEqual(idsOf([withdrawn]));
    expect(request.unmentioned?.functions).toEqual(['bell']);
  });

  it('leaves out what is not on the drawing', () => {
    const stray = heard({ node: '9' });
    expect(idsOf(pose([stray]).leftOut)).toEqual([stray.id]);
  });

  it('lets silence about a room speak only for functions that nobody went through', () => {
    const volunteered = heard({ how: 'volunteered', function: 'music' });
    const both = [heard({ how: 'volunteered' }), heard({ node: '2' })];
    expect(pose([volunteered, ...both]).request.unmentioned).toEqual({
      reportRate: 0.3,
      functions: ['music'],
    });
  });

  it('keeps what one person said in two sittings, and numbers the sittings', () => {
    const worked = heard({ outcome: 'works', observedAt: new Date(Date.UTC(2026, 0, 1)) });
    const failed = heard({ observedAt: new Date(Date.UTC(2026, 0, 2)) });
    const { used, inSittings, sittings } = pose([failed, worked]);
    expect(used).toEqual([worked, failed]);
    expect(sittings).toBe(2);
    expect(inSittings?.observations.map(({ outcome, sitting }) => [outcome, sitting])).toEqual([
      ['works', 0],
      ['fails', 1],
    ]);
    expect(pose([failed]).inSittings).toBeNull();
  });

  it('keeps the last four sittings apart, and puts silence in the last that was volunteered', () => {
    const days = [1, 2, 3, 4, 5, 6];
    const all = days.map((day) =>
      heard({
        observedAt: new Date(Date.UTC(2026, 0, day)),
        how: day < 6 ? 'volunteered' : 'gone-through',
        function: day < 6 ? 'music' : 'bell',
      }),
    );
    const { inSittings, sittings } = pose(all);
    expect(sittings).toBe(6);
    expect(inSittings?.observations.map(({ sitting }) => sitting)).toEqual([0, 0, 0, 1, 2, 3]);
    expect(inSittings?.unmentioned).toMatchObject({ functions: ['music'], sitting: 2 });
  });

  it('leaves out what was seen until the ticket was last closed', () => {
    const before = heard({});
    const after = heard({ node: '2' });
    const { used, leftOut } = toEvidence(drawing, [before, after], before.observedAt);
    expect(used).toEqual([after]);
    expect(idsOf(leftOut)).toEqual(idsOf([before]));
  });
});
