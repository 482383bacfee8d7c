import { describe, expect, it } from '@jest/globals';
import { copyOf, ReusedTable, zeroTable } from './zero-table.js';

describe('a table of zeros', () => {
  it('is of zeros and of nobody else, whatever is written into those before it', () => {
    const lengths = Array.from({ length: 400 }, (_, i) => (i * 37) % 1100);
    const tables = lengths.map((length, i) => {
      const table = zeroTable(length);
      expect(table).toHaveLength(length);
      expect(table.every((entry) => entry === 0)).toBe(true);
      return table.fill(i + 1);
    });
    for (const [i, table] of tables.entries())
      expect(table.every((entry) => entry === i + 1)).toBe(true);
  });

  it('shares memory where it is short, and has its own where it is very short or long', () => {
    const memory = (length: number) => zeroTable(length).buffer.byteLength / 8;
    expect([0, 8, 1025].map(memory)).toEqual([0, 8, 1025]);
    for (const length of [9, 100, 1024]) expect(memory(length)).toBe(8192);
  });
});

describe('a copy of the first numbers of a table', () => {
  it('is one of its own', () => {
    const table = Float64Array.from({ length: 30 }, (_, i) => i);
    const copy = copyOf(table, 20);
    table.fill(-1);
    expect([...copy]).toEqual(Array.from({ length: 20 }, (_, i) => i));
  });
});

describe('memory that is used again', () => {
  it('is as long as anybody asked, and the same until somebody asks for more', () => {
    const room = new ReusedTable();
    const first = room.of(10).fill(3, 0, 10);
    expect(room.of(5)).toBe(first);
    const longer = room.of(1000);
    expect(longer.length).toBeGreaterThanOrEqual(1000);
    expect(room.of(10)).toBe(longer);
  });
});
