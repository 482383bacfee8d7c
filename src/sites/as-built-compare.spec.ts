import { describe, expect, it } from '@jest/globals';
import { blankNode } from './as-built-fields.js';
import fc from 'fast-check';
import { type AsBuilt, type RecordNode, NOTHING_DRAWN } from './as-built.js';
import { compareAsBuilt, isSame } from './as-built-compare.js';
import { changedRows, toNodeRows, toTrunkRows, toTrunks } from './as-built-rows.js';

const station = (node: string, more: Partial<RecordNode> = {}): RecordNode => ({
  ...blankNode(node, 5),
  room: `Room ${node}`,
  ...more,
});

const drawing = (trunks: Record<string, RecordNode[]>, name = ''): AsBuilt => ({
  headEnd: NOTHING_DRAWN.headEnd,
  trunks: Object.entries(trunks).map(([trunk, nodes]) => ({ trunk, name, port: null, nodes })),
});

const names = (list: { trunk: string; node: string }[]) =>
  list.map(({ trunk, node }) => trunk + node);

describe('compareAsBuilt', () => {
  it('finds what came, went and changed, field by field', () => {
    const before = drawing({ A: [station('1'), station('2'), station('3')], B: [station('1')] });
    const after: AsBuilt = {
      headEnd: { ...NOTHING_DRAWN.headEnd, serial: 'S9', supplyVolts: 24 },
      trunks: [
        {
          trunk: 'A',
          name: 'North',
          port: '1',
          nodes: [station('1'), station('9'), station('3', { cableMetres: 7, unitSerial: 'X' })],
        },
        { trunk: 'C', name: '', port: null, nodes: [station('1')] },
      ],
    };
    expect(compareAsBuilt(before, after)).toEqual({
      headEnd: [
        { field: 'serial', before: null, after: 'S9' },
        { field: 'supplyVolts', before: null, after: 24 },
      ],
      trunksAdded: ['C'],
      trunksRemoved: ['B'],
      trunksChanged: [
        {
          trunk: 'A',
          fields: [
            { field: 'name', before: '', after: 'North' },
            { field: 'port', before: null, after: '1' },
          ],
        },
      ],
      nodesAdded: [
        { trunk: 'A', node: '9', kind: 'station', room: 'Room 9', isLengthGuessed: false },
        { trunk: 'C', node: '1', kind: 'station', room: 'Room 1', isLengthGuessed: false },
      ],
      nodesRemoved: [
        { trunk: 'A', node: '2', kind: 'station', room: 'Room 2', isLengthGuessed: false },
        { trunk: 'B', node: '1', kind: 'station', room: 'Room 1', isLengthGuessed: false },
      ],
      nodesChanged: [
        {
          trunk: 'A',
          node: '3',
          fields: [
            { field: 'cableMetres', before: 5, after: 7 },
            { field: 'unitSerial', before: null, after: 'X' },
          ],
        },
      ],
    });
  });

  it('does not say that nodes moved when one was put in before them, but when their order changed', () => {
    const before = drawing({ A: [station('1'), station('2'), station('3')] });
    const between = compareAsBuilt(
      before,
      drawing({ A: [station('0'), station('1'), station('2'), station('3')] }),
    );
    expect(between.nodesChanged).toEqual([]);
    expect(names(between.nodesAdded)).toEqual(['A0']);
    const swapped = compareAsBuilt(
      before,
      drawing({ A: [station('1'), station('3'), station('2')] }),
    );
    expect(swapped.nodesChanged).toEqual([
      { trunk: 'A', node: '3', fields: [{ field: 'order', before: 3, after: 2 }] },
      { trunk: 'A', node: '2', fields: [{ field: 'order', before: 2, after: 3 }] },
    ]);
  });
});

const someDrawing = fc
  .dictionary(
    fc.constantFrom('A', 'B', 'C'),
    fc.uniqueArray(
      fc.record({ node: fc.constantFrom(...'123456'), cableMetres: fc.constantFrom(5, 6) }),
      {
        minLength: 1,
        selector: ({ node }) => node,
      },
    ),
    { noNullPrototype: true },
  )
  .chain((trunks) =>
    fc.constantFrom('', 'wing').map((name) => {
      const nodes = Object.entries(trunks)
        .sort(([a], [b]) => (a < b ? -1 : 1))
        .map(([trunk, list]) => [
          trunk,
          list.map(({ node, cableMetres }) => station(node, { cableMetres })),
        ]);
      return drawing(Object.fromEntries(nodes) as Record<string, RecordNode[]>, name);
    }),
  );

describe('changedRows', () => {
  it('ends and begins only the rows that differ, and what is left is the new drawing', () => {
    fc.assert(
      fc.property(someDrawing, someDrawing, (before, after) => {
        const keyOf = ({ trunk, node }: { trunk: string; node: string }) => `${trunk}/${node}`;
        const nodes = changedRows(toNodeRows(before), toNodeRows(after), keyOf);
        const trunks = changedRows(toTrunkRows(before), toTrunkRows(after), ({ trunk }) => trunk);
        const keptBefore = toNodeRows(before).filter(
          (row) => !nodes.ended.some((each) => keyOf(each) === keyOf(row)),
        );
        const current = [...keptBefore, ...nodes.begun].sort((a, b) => a.position - b.position);
        expect(toTrunks(toTrunkRows(after), current)).toEqual(after.trunks);
        // Something is written exactly when the comparison has something to say.
        const written = [nodes.ended, nodes.begun, trunks.ended, trunks.begun].flat().length;
        expect(written === 0).toBe(isSame(compareAsBuilt(before, after)));
      }),
      { seed: 7, numRuns: 120 },
    );
  });

  it('writes one row for one replaced unit among many', () => {
    const many = Array.from({ length: 50 }, (_, i) => station(`${i}`));
    const after = many.map((node) => (node.node === '20' ? { ...node, unitSerial: 'new' } : node));
    const change = changedRows(
      toNodeRows(drawing({ A: many })),
      toNodeRows(drawing({ A: after })),
      ({ node }) => node,
    );
    expect(change.begun).toMatchObject([{ node: '20', position: 21, unitSerial: 'new' }]);
    expect(change.ended).toMatchObject([{ node: '20', position: 21, unitSerial: null }]);
  });
});
