import { describe, expect, it } from '@jest/globals';
import { keepIn } from './kept.js';

function storeOf(texts: Map<string, string>) {
  return {
    get length() {
      return texts.size;
    },
    key: (at: number) => [...texts.keys()][at] ?? null,
    getItem: (name: string) => texts.get(name) ?? null,
    setItem: (name: string, text: string) => void texts.set(name, text),
    removeItem: (name: string) => void texts.delete(name),
  };
}

const refusing = () => {
  throw new Error('This browser keeps nothing');
};

describe.each([
  ['a store', () => storeOf(new Map())],
  ['a browser that keeps nothing', refusing],
])('what is kept in %s', (_, findStore) => {
  it('is read again, until it is forgotten by the beginning of its name', () => {
    const kept = keepIn(findStore);
    for (const name of ['draft a', 'draft b', 'drafts', 'a draft c']) kept.write(name, { name });
    kept.forget('draft ');
    expect(['draft a', 'draft b', 'drafts', 'a draft c'].map((name) => kept.read(name))).toEqual([
      undefined,
      undefined,
      { name: 'drafts' },
      { name: 'a draft c' },
    ]);
  });
});

it('leaves alone what others keep beside it', () => {
  const texts = new Map([['draft of another', 'x']]);
  const kept = keepIn(() => storeOf(texts));
  kept.write('draft a', 1);
  kept.forget('draft ');
  expect([...texts.keys()]).toEqual(['draft of another']);
});
