import { describe, expect, it } from '@jest/globals';

import type { Place } from '../drawing/drawn-node.js';
import type { FunctionName } from '../plan/functions.js';
import { lostPlaces, type SaidAtPlaces } from './lost-places.js';

interface Node {
  node: string;
  kind: 'station' | 'junction-box';
  fedFrom: string | null;
  cableMetres: number;
  room: string | null;
  groups: string[];
  isOut: boolean;
  lacks: FunctionName[];
}

const nodes = (): Node[] =>
  [1, 2, 3, 4].map((n) => ({
    node: `A${n}`,
    kind: 'station',
    fedFrom: n === 1 ? null : `A${n - 1}`,
    cableMetres: 10,
    room: `Room ${n}`,
    groups: n === 4 ? ['upstairs'] : [],
    isOut: false,
    lacks: [],
  }));

const record = (changed: readonly Node[], trunk = 'A') => ({
  trunks: [{ trunk, nodes: [...changed] }],
});
const BEFORE = record(nodes());
const after = (change: (drawn: Node[]) => Node[]) => record(change(nodes()));
const with4 = (changes: Partial<Node>) =>
  after((drawn) => drawn.map((one) => (one.node === 'A4' ? { ...one, ...changes } : one)));

const NOTHING: SaidAtPlaces = { heard: [], readings: [], looks: [], findings: [] };
const heard = (node: string, disconnectedBelow: string | null = null): SaidAtPlaces => ({
  ...NOTHING,
  heard: [{ id: 'h', trunk: 'A', node, function: 'bell', disconnectedBelow }],
});
const read = (node: string | null, from: string | null = null): SaidAtPlaces => ({
  ...NOTHING,
  readings: [{ id: 'r', trunk: 'A', node, from }],
});
const look = (place: Place, group: string | null = null): SaidAtPlaces => ({
  ...NOTHING,
  looks: [{ id: 'l', place, group }],
});
const found = (place: Place | null): SaidAtPlaces => ({
  ...NOTHING,
  findings: [{ id: 'f', place }],
});

const UNIT: Place = { kind: 'station', trunk: 'A', node: 'A4' };
const SPAN: Place = { kind: 'span', trunk: 'A', from: 'A3', to: 'A4' };
const WITHOUT_4 = after((drawn) => drawn.slice(0, 3));
const BETWEEN = after((drawn) => [
  ...drawn.slice(0, 3),
  { ...nodes()[3]!, node: 'A9', fedFrom: 'A3', room: 'New room' },
  { ...nodes()[3]!, fedFrom: 'A9' },
]);

describe('what would lose its place by a newer record', () => {
  it('is nothing by the same record, or by one with more cable, lengths and rooms', () => {
    const all = [heard('A4', 'A2'), read('A4', 'A1'), look(UNIT), look(SPAN), found(SPAN)];
    for (const said of all) expect(lostPlaces(said, BEFORE, record(nodes()))).toEqual([]);
    const longer = with4({ cableMetres: 60, isOut: false, room: ' room  4' });
    for (const said of all) expect(lostPlaces(said, BEFORE, longer)).toEqual([]);
    for (const said of [heard('A4', 'A2'), read('A4', 'A1'), look(UNIT)])
      expect(lostPlaces(said, BEFORE, BETWEEN)).toEqual([]);
  });

  it.each<[string, SaidAtPlaces, ReturnType<typeof record>]>([
    ['a word of a room that is gone', heard('A4'), WITHOUT_4],
    ['a word of a code that is another room now', heard('A4'), with4({ room: 'Library' })],
    ['a word of what is a junction box now', heard('A4'), with4({ kind: 'junction-box' })],
    ['a word of a unit that is out now', heard('A4'), with4({ isOut: true })],
    ['a word of what was never fitted', heard('A4'), with4({ lacks: ['bell'] })],
    ['a word with the cable off at a room that is gone', heard('A1', 'A4'), WITHOUT_4],
    ['a reading at a room that is gone', read('A4'), WITHOUT_4],
    ['a test to a room that hangs elsewhere now', read('A4', 'A3'), with4({ fedFrom: 'A2' })],
    ['a reading of a trunk that is gone', read(null), record(nodes(), 'B')],
    ['a look at a unit that is gone', look(UNIT), WITHOUT_4],
    ['a look at a unit that is out now', look(UNIT), with4({ isOut: true })],
    ['a look at cable that leads elsewhere now', look(SPAN), BETWEEN],
    [
      'a look at the output of a trunk that is gone',
      look({ kind: 'port', trunk: 'A' }),
      record([], 'B'),
    ],
    [
      'a look at a group that nobody is in',
      look({ kind: 'head-end' }, 'upstairs'),
      with4({ groups: [] }),
    ],
    ['a finding in cable that leads elsewhere now', found(SPAN), BETWEEN],
  ])('is %s', (_what, said, newer) => {
    const lost = lostPlaces(said, BEFORE, newer);
    expect(lost).toHaveLength(1);
    const ids = [...said.heard, ...said.readings, ...said.looks, ...said.findings];
    expect(lost[0]!.id).toBe(ids[0]!.id);
    // The other way round it had no place, or gets one.
    expect(lostPlaces(said, newer, newer)).toEqual([]);
  });

  it('is no finding of nothing, and nothing of the head-end itself', () => {
    expect(lostPlaces(found(null), BEFORE, WITHOUT_4)).toEqual([]);
    expect(lostPlaces(look({ kind: 'head-end' }), BEFORE, WITHOUT_4)).toEqual([]);
  });
});
