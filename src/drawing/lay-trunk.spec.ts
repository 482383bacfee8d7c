import { describe, expect, it } from '@jest/globals';
import { type CableNode, layLying, layUpright, stepAlong } from './lay-trunk.js';

function row(count: number, name = 'A', fedFrom: string | null = null): CableNode[] {
  return Array.from({ length: count }, (_, i) => ({
    node: `${name}${i + 1}`,
    fedFrom: i === 0 ? fedFrom : `${name}${i}`,
  }));
}

const spots = (laid: ReturnType<typeof layLying>) =>
  laid.nodes.map(({ node, column, row: r, way }) => `${node} ${column},${r} ${way}`);

describe('layLying', () => {
  it('puts one room beside the port', () => {
    expect(spots(layLying(row(1), 10))).toEqual(['A1 1,0 along']);
  });

  it('wraps a long trunk into rows, and each node has a cell of its own', () => {
    const laid = layLying(row(80), 16);
    expect(laid.rows).toBe(6);
    expect(laid.nodes.map(({ node }) => node)).toEqual(row(80).map(({ node }) => node));
    expect(new Set(laid.nodes.map(({ column, row: r }) => `${column},${r}`)).size).toBe(80);
    expect(Math.max(...laid.nodes.map(({ column }) => column))).toBe(15);
    expect(laid.nodes.filter(({ way }) => way === 'wraps').map(({ node }) => node)).toEqual([
      'A16',
      'A32',
      'A48',
      'A64',
      'A80',
    ]);
  });

  it('hangs branches below their tee, the rightmost first, before the trunk goes on', () => {
    const nodes = [...row(9), ...row(2, 'B', 'A2'), ...row(3, 'C', 'A4')];
    expect(spots(layLying(nodes, 6))).toEqual([
      'A1 1,0 along',
      'A2 2,0 along',
      'B1 2,3 hangs',
      'B2 3,3 along',
      'A3 3,0 along',
      'A4 4,0 along',
      'C1 4,1 hangs',
      'C2 5,1 along',
      'C3 3,2 wraps',
      'A5 5,0 along',
      'A6 0,4 wraps',
      'A7 1,4 along',
      'A8 2,4 along',
      'A9 3,4 along',
    ]);
  });

  it('goes on where most rooms are, whatever the order of the list', () => {
    const nodes = [{ node: 'T', fedFrom: null }, ...row(1, 'S', 'T'), ...row(3, 'L', 'T')];
    expect(spots(layLying(nodes, 9))).toEqual([
      'T 1,0 along',
      'S1 1,1 hangs',
      'L1 2,0 along',
      'L2 3,0 along',
      'L3 4,0 along',
    ]);
  });

  it('takes trunks that begin with two cables', () => {
    const laid = layLying([...row(3), ...row(1, 'B')], 9);
    expect(spots(laid)).toContain('B1 0,1 hangs');
    expect(laid.nodes.find(({ node }) => node === 'B1')?.feeder).toBeNull();
  });
});

describe('layUpright', () => {
  it('has one node a row, a branch further in between its tee and what comes after', () => {
    const nodes = [...row(4), ...row(2, 'B', 'A2')];
    expect(spots(layUpright(nodes))).toEqual([
      'A1 0,1 along',
      'A2 0,2 along',
      'B1 1,3 hangs',
      'B2 1,4 along',
      'A3 0,5 along',
      'A4 0,6 along',
    ]);
  });
});

describe('stepAlong', () => {
  const laid = layLying([...row(4), ...row(2, 'B', 'A2')], 9);
  const step = (from: string, way: Parameters<typeof stepAlong>[2]) =>
    stepAlong(laid, from, way)?.node;

  it('walks the cable both ways, and in and out of branches', () => {
    expect(step('A2', 'on')).toBe('A3');
    expect(step('A4', 'on')).toBeUndefined();
    expect(step('A1', 'back')).toBeUndefined();
    expect(step('A3', 'back')).toBe('A2');
    expect(step('A2', 'into-branch')).toBe('B1');
    expect(step('A3', 'into-branch')).toBeUndefined();
    expect(step('B2', 'out-of-branch')).toBe('A2');
    expect(step('A3', 'out-of-branch')).toBeUndefined();
  });
});
