import { describe, expect, it } from '@jest/globals';
import { keepIn } from './kept.js';
import { forgetId, repeatId } from './repeat-id.js';

describe('repeatId', () => {
  const refusing = () => {
    throw new Error('This browser keeps nothing');
  };

  it('is the same for the same content until it was answered', () => {
    const kept = keepIn(refusing);
    let made = 0;
    const id = (content: unknown) => repeatId(kept, 'report', content, () => `id ${++made}`);
    expect(id({ rooms: [1] })).toBe('id 1');
    expect(id({ rooms: [1] })).toBe('id 1');
    expect(id({ rooms: [1, 2] })).toBe('id 2');
    forgetId(kept, 'report');
    expect(id({ rooms: [1, 2] })).toBe('id 3');
  });

  it('is kept apart by purpose, and in the store where there is one', () => {
    const texts = new Map<string, string>();
    const kept = keepIn(() => ({
      length: 0,
      key: () => null,
      getItem: (name) => texts.get(name) ?? null,
      setItem: (name, text) => void texts.set(name, text),
      removeItem: (name) => void texts.delete(name),
    }));
    expect(repeatId(kept, 'a', 1, () => 'first')).toBe('first');
    expect(repeatId(kept, 'b', 1, () => 'second')).toBe('second');
    expect(repeatId(kept, 'a', 1, () => 'third')).toBe('first');
    expect([...texts.keys()]).toEqual(['lastheard sending a', 'lastheard sending b']);
  });
});
