import { describe, expect, it } from '@jest/globals';
import { blankNode } from '../sites/as-built-fields.js';
import { NOTHING_DRAWN, type RecordNode } from '../sites/as-built.js';
import { walkTestChecklist } from './walk-test-checklist.js';

const station = (node: string, more: Partial<RecordNode> = {}): RecordNode => ({
  ...blankNode(node),
  room: `Room ${node}`,
  ...more,
});

describe('the checklist of a walk test', () => {
  const nodes = [
    station('A1'),
    station('A2', { lacks: ['talkback', 'music'] }),
    station('A3', { isOut: true }),
    station('A4', { kind: 'junction-box' }),
  ];
  const record = { ...NOTHING_DRAWN, trunks: [{ trunk: 'A', name: 'A', port: null, nodes }] };
  const heard = (node: string, at: string) => ({
    trunk: 'A',
    node,
    function: 'bell' as const,
    testedAt: new Date(at),
  });

  it('asks of each room what its unit can, and nothing of what is out or no station', () => {
    const rooms = walkTestChecklist(record, []);
    expect(rooms.map(({ node, functions }) => [node, functions.length])).toEqual([
      ['A1', 6],
      ['A2', 4],
    ]);
  });

  it('is ticked by what was heard', () => {
    const rooms = walkTestChecklist(record, [
      heard('A1', '2026-03-02T10:00:00Z'),
      heard('A9', '2026-03-02T10:00:00Z'),
    ]);
    const ticked = rooms.flatMap(({ node, functions }) =>
      functions.flatMap((one) =>
        one.testedAt === null ? [] : [[node, one.function, one.testedAt]],
      ),
    );
    expect(ticked).toEqual([['A1', 'bell', new Date('2026-03-02T10:00:00Z')]]);
  });
});
