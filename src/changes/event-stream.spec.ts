import { describe, expect, it } from '@jest/globals';
import { EventStream } from './event-stream.js';

describe('EventStream', () => {
  it('writes events, and lets go whoever does not read', () => {
    const written: string[] = [];
    const done: string[] = [];
    const sink = {
      writableLength: 0,
      write: (text: string) => written.push(text),
      end: () => done.push('ended'),
      destroy: () => done.push('destroyed'),
    };
    const stream = new EventStream('f1', sink);
    stream.tell({ firmId: 'f1', kind: 'ticket', id: 'a', eventId: 'p-1' });
    stream.tellGap('p-2');
    stream.beat();
    expect(written).toEqual([
      'id: p-1\nevent: change\ndata: {"kind":"ticket","id":"a"}\n\n',
      'id: p-2\nevent: missed\ndata: {}\n\n',
      ': \n\n',
    ]);
    sink.writableLength = 262_145;
    stream.beat();
    expect(written).toHaveLength(3);
    expect(done).toEqual(['destroyed']);
  });
});
