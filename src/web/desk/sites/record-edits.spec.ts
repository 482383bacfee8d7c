import { describe, expect, it } from '@jest/globals';
import {
  applied,
  asSent,
  behind,
  type DraftNode,
  edited,
  nextCode,
  type RecordEdit,
  withEdit,
} from './record-edits.js';

const node = (code: string, fedFrom: string | null, more: Partial<DraftNode> = {}): DraftNode => ({
  ...{ node: code, fedFrom, kind: 'station', cableType: null, cableMetres: 10 },
  ...{ isLengthGuessed: false, room: `Room ${code}`, block: null, floor: null, unitModel: null },
  ...{ unitSerial: null, unitInstalledOn: null, groups: [], isOut: false, lacks: [], ...more },
});
const TRUNKS = [
  {
    ...{ trunk: 'A', name: '', port: null },
    nodes: [node('A1', null), node('A2', 'A1', { cableMetres: 25 }), node('A3', 'A2')],
  },
];
type Edit = RecordEdit extends infer One
  ? One extends RecordEdit
    ? Omit<One, 'trunk'>
    : never
  : never;
const after = (...edits: Edit[]) =>
  applied(
    { trunks: TRUNKS as never },
    edits.map((one) => ({ ...one, trunk: 'A' })),
  );
const laid = (made: ReturnType<typeof after>) =>
  made.trunks.flatMap(({ nodes }) =>
    nodes.map((one) => {
      return `${one.node}<${one.fedFrom} ${one.cableMetres}${one.isLengthGuessed ? '?' : ''}`;
    }),
  );

describe('changes to a record', () => {
  it('put a node into a span, half of its length on either side as a guess', () => {
    const place = { before: 'A2' };
    const made = after({ kind: 'insert', node: 'J1', as: 'junction-box', place });
    expect(laid(made)).toEqual(['A1<null 10', 'J1<A1 12.5?', 'A2<J1 12.5?', 'A3<A2 10']);
    expect(made.trunks[0]!.nodes[1]).toMatchObject({ kind: 'junction-box', room: null });
  });

  it('hang a node behind another, with a length that is not known', () => {
    const made = after({ kind: 'insert', node: 'A4', as: 'station', place: { behind: 'A1' } });
    expect(laid(made)).toEqual(['A1<null 10', 'A2<A1 25', 'A3<A2 10', 'A4<A1 null?']);
  });

  it('take one out, and its neighbours are joined over both lengths', () => {
    expect(laid(after({ kind: 'remove', node: 'A2' }))).toEqual(['A1<null 10', 'A3<A1 35']);
    expect(
      after(...['A1', 'A2', 'A3'].map((one) => ({ kind: 'remove' as const, node: one }))),
    ).toEqual({ trunks: [], unfit: [] });
  });

  it('move one alone, and hang one from elsewhere with all behind it', () => {
    const moved = after({ kind: 'move', node: 'A1', place: { before: 'A3' } });
    expect(laid(moved)).toEqual(['A2<null 35', 'A1<A2 5?', 'A3<A1 5?']);
    expect(moved.trunks[0]!.nodes[1]!.room).toBe('Room A1');
    const tee = after({ kind: 'feed', node: 'A3', fedFrom: 'A1' });
    expect(laid(tee)).toEqual(['A1<null 10', 'A2<A1 25', 'A3<A1 10?']);
  });

  it('keep what cannot be made apart: what is not there, is there already, or would be a circle', () => {
    const edits: Edit[] = [
      { kind: 'remove', node: 'Z' },
      { kind: 'rename', node: 'A1', to: 'A2' },
      { kind: 'insert', node: 'A1', as: 'station', place: { behind: 'A2' } },
      { kind: 'insert', node: 'A9', as: 'station', place: { behind: 'Z' } },
      { kind: 'feed', node: 'A1', fedFrom: 'A3' },
      { kind: 'move', node: 'A1', place: { before: 'A1' } },
      { kind: 'redraw', way: { kind: 'branch', from: 'A9', to: 'A3' } },
    ];
    const made = after(...edits);
    expect(made.unfit).toHaveLength(edits.length);
    expect(made.trunks).toEqual(TRUNKS);
  });

  it('give a code, which what it feeds goes by', () => {
    expect(laid(after({ kind: 'rename', node: 'A2', to: 'B7' }))).toEqual([
      ...['A1<null 10', 'B7<A1 25', 'A3<B7 10'],
    ]);
  });

  it('begin a trunk, once', () => {
    const made = edited(TRUNKS, { kind: 'trunk', trunk: 'B', node: 'B1' });
    expect(made?.map(({ trunk }) => trunk)).toEqual(['A', 'B']);
    expect(edited(TRUNKS, { kind: 'trunk', trunk: 'A', node: 'B1' })).toBeUndefined();
  });

  it('are sent with metres as numbers where they are some, unknown where blank, else as typed', () => {
    const set = (code: string, value: string): Edit => {
      return { kind: 'set', node: code, field: 'cableMetres', value };
    };
    const { trunks } = after(set('A1', ' 7,5 '), set('A2', ''), set('A3', 'long'));
    expect(asSent(trunks)[0]!.nodes.map(({ cableMetres }) => cableMetres)).toEqual([
      ...[7.5, null, 'long'],
    ]);
  });
});

describe('withEdit', () => {
  it('takes typing on in one field as one change', () => {
    const typed = (value: string, field: 'room' | 'floor' = 'room'): RecordEdit => {
      return { kind: 'set', trunk: 'A', node: 'A1', field, value };
    };
    const edits = [typed('H'), typed('Ha'), typed('1', 'floor'), typed('Hal')].reduce<RecordEdit[]>(
      (all, one) => withEdit(all, one),
      [],
    );
    expect(edits).toEqual([typed('Ha'), typed('1', 'floor'), typed('Hal')]);
  });
});

describe('codes', () => {
  it('go on from the highest number, and name all that is behind', () => {
    expect(nextCode(TRUNKS[0]!)).toBe('A4');
    expect(nextCode({ trunk: 'B', name: '', port: null, nodes: [node('J1', null)] })).toBe('B1');
    expect([...behind(TRUNKS[0]!.nodes, 'A2')]).toEqual(['A2', 'A3']);
  });
});
