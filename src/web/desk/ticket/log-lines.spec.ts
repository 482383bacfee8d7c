import { describe, expect, it } from '@jest/globals';
import type { ReadLogEntry } from '../../parts/wire.js';
import { type ClockEntry, keptAfterAll, logLines } from './log-lines.js';

let count = 0;
function entry(kind: ReadLogEntry['kind'], second: number, details: object = {}): ReadLogEntry {
  const happenedAt = new Date(Date.UTC(2026, 2, 2, 8, 0, second)).toISOString();
  const id = String(++count);
  return { id, kind, happenedAt, details, saidBy: 'Mara Quill' } as ReadLogEntry;
}

const told = (log: ReadLogEntry[]) =>
  logLines(log).map((line) =>
    line.map(({ kind, details }) => [kind, details.promise].filter(Boolean).join(' ')).join(', '),
  );

describe('a log', () => {
  it('has one line for what one reckoning found of several promises', () => {
    const log = [
      entry('report', 0),
      entry('promise-changed', 3, { promise: 'response' }),
      entry('promise-breach', 3, { promise: 'response' }),
      entry('promise-changed', 3, { promise: 'restore' }),
      entry('promise-breach', 3, { promise: 'restore' }),
      entry('move', 9),
    ];
    expect(told(log)).toEqual([
      'report',
      'promise-breach response, promise-breach restore',
      'move',
    ]);
  });

  it('keeps apart what was found at another time, or between what people did', () => {
    const log = [
      entry('promise-warning', 0, { promise: 'response' }),
      entry('promise-warning', 20, { promise: 'restore' }),
      entry('note', 20),
      entry('promise-breach', 20, { promise: 'restore' }),
    ];
    expect(told(log)).toEqual([
      'promise-warning response',
      'promise-warning restore',
      'note',
      'promise-breach restore',
    ]);
  });

  it('keeps a change of one promise beside a breach of the other', () => {
    const log = [
      entry('promise-breach', 0, { promise: 'response' }),
      entry('promise-changed', 0, { promise: 'restore' }),
    ];
    expect(told(log)).toEqual(['promise-changed restore', 'promise-breach response']);
  });

  it('knows which promises were kept after all', () => {
    const line = [
      entry('promise-breach', 0, { promise: 'response' }),
      entry('promise-breach', 0, { promise: 'restore' }),
    ] as ClockEntry[];
    const promises = (response: string, restore: string) =>
      [
        { promise: 'response', state: response },
        { promise: 'restore', state: restore },
      ] as Parameters<typeof keptAfterAll>[1];
    expect(keptAfterAll(line, promises('met', 'breached'))).toEqual(['response']);
    expect(keptAfterAll(line.slice(1), promises('met', 'breached'))).toEqual([]);
    const [warned] = [entry('promise-warning', 0, { promise: 'response' })] as [ClockEntry];
    expect(keptAfterAll([warned], promises('met', 'met'))).toEqual([]);
  });
});
