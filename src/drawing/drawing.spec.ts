import { describe, expect, it } from '@jest/globals';
import { Drawing } from './drawing.js';
import type { DrawnNode } from './drawn-node.js';

const station = (id: string, more: Partial<DrawnNode> = {}): DrawnNode => ({
  id,
  kind: 'station',
  cableMetres: 5,
  ...more,
});

// port - 1 - T - 2 - 3, and T - 4 - 5; and a second trunk with a node of the same id.
const drawing = new Drawing([
  {
    id: 'A',
    nodes: [
      station('1', { name: 'Room 1' }),
      station('T', { kind: 'junction-box' }),
      station('2'),
      station('3'),
      station('4', { fedFrom: 'T' }),
      station('5'),
    ],
  },
  { id: 'B', nodes: [station('1', { fedFrom: null })] },
]);
const ids = (nodes: readonly DrawnNode[]) => nodes.map((node) => node.id);

describe('a drawing', () => {
  it('finds a node of a trunk, and nothing that is not drawn', () => {
    expect(drawing.nodeAt('A', '1')?.name).toBe('Room 1');
    expect(drawing.nodeAt('B', '1')?.name).toBeUndefined();
    expect(drawing.nodeAt('B', '2')).toBeUndefined();
    expect(drawing.nodeAt('C', '1')).toBeUndefined();
  });

  it('tells the way from the head-end to a node', () => {
    expect(ids(drawing.pathTo('A', '5'))).toEqual(['1', 'T', '4', '5']);
    expect(ids(drawing.pathTo('A', null))).toEqual([]);
    expect(ids(drawing.pathTo('A', 'nowhere'))).toEqual([]);
  });

  it('tells what lies behind a node, the nearest first', () => {
    expect(ids(drawing.below('A', 'T'))).toEqual(['2', '4', '3', '5']);
    expect(ids(drawing.below('A', '3'))).toEqual([]);
    expect(ids(drawing.below('A', null))).toEqual(['1', 'T', '2', '4', '3', '5']);
  });

  it('calls a node what people call it, else as it is told', () => {
    const unnamed = {
      station: (id: string) => `unit ${id}`,
      'junction-box': (id: string) => `tee ${id}`,
    };
    const name = (id: string) => drawing.nameOf('A', id, unnamed);
    expect(['1', '2', 'T', 'nowhere'].map(name)).toEqual(['Room 1', 'unit 2', 'tee T', 'nowhere']);
  });

  it('tells what a node feeds, in the order of the list', () => {
    const fork = new Drawing([
      {
        id: 'A',
        nodes: [station('1'), station('9', { fedFrom: '1' }), station('2', { fedFrom: '1' })],
      },
    ]);
    expect(ids(fork.fedBy('A', null))).toEqual(['1']);
    expect(ids(fork.fedBy('A', '1'))).toEqual(['9', '2']);
    expect(ids(fork.fedBy('A', '2'))).toEqual([]);
    expect(ids(fork.fedBy('B', null))).toEqual([]);
  });

  it('is laid out by who feeds whom, not by the order of the list', () => {
    const nodes = [station('2', { fedFrom: '1' }), station('1', { fedFrom: null })];
    const tree = new Drawing([{ id: 'A', nodes }]).treeOf('A');
    expect(tree?.nodeIds).toEqual(['1', '2']);
    expect([...(tree?.parent ?? [])]).toEqual([-1, 0]);
  });

  it('leaves out what hangs on a ring, and the second of one id', () => {
    const ring = [station('1', { fedFrom: '2' }), station('2'), station('3', { fedFrom: null })];
    expect(new Drawing([{ id: 'A', nodes: ring }]).treeOf('A')?.nodeIds).toEqual(['3']);
    const twice = [station('1'), station('1'), station('2')];
    expect(new Drawing([{ id: 'A', nodes: twice }]).treeOf('A')?.nodeIds).toEqual(['1', '2']);
  });

  it('takes a line of 100,000 nodes, in time linear in them', () => {
    const nodes = Array.from({ length: 100_000 }, (_, n) => station(`N${n}`));
    const long = new Drawing([{ id: 'A', nodes }]);
    expect(long.pathTo('A', 'N99999')).toHaveLength(100_000);
    expect(long.below('A', 'N0')).toHaveLength(99_999);
  });
});
