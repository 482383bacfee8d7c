import { describe, expect, it } from '@jest/globals';
import { meetChanges } from './meet-changes.js';

interface Fields {
  fee: string;
  title: string;
  siteIds: string[];
  response: Partial<Record<'room' | 'trunk', string>>;
}

describe('meetChanges', () => {
  const base: Fields = {
    fee: '100',
    title: 'Upkeep',
    siteIds: ['1'],
    response: { room: '8', trunk: '4' },
  };

  it('keeps what was typed, and takes what was not touched as somebody else left it', () => {
    const typed = { ...base, fee: '120', response: { room: '6', trunk: '4' } };
    const theirs = { ...base, title: 'Upkeep 2026', response: { room: '8', trunk: '3' } };
    expect(meetChanges(base, typed, theirs)).toEqual({
      draft: { ...base, fee: '120', title: 'Upkeep 2026', response: { room: '6', trunk: '3' } },
      both: [],
    });
  });

  it('names what both changed, unless they agree', () => {
    const typed = { ...base, fee: '120', title: 'New', siteIds: ['1', '2'] };
    const theirs = { ...base, fee: '130', title: 'New', siteIds: [], response: { room: '8' } };
    const { draft, both } = meetChanges(base, typed, theirs);
    expect(draft).toEqual({ ...typed, response: { room: '8', trunk: undefined } });
    expect(both).toEqual(['fee', 'siteIds']);
  });

  it('meets within a part that one of them emptied', () => {
    const typed = { ...base, response: { room: '2', trunk: '4' } };
    const theirs = { ...base, response: { trunk: '4' } };
    expect(meetChanges(base, typed, theirs).both).toEqual(['response']);
  });
});
