import { describe, expect, it } from '@jest/globals';
import { HeardChanges } from './heard-changes.js';

describe('HeardChanges', () => {
  const heard = new HeardChanges('p1', 3);
  const hear = (id: string, firmId = 'f1') => heard.hear({ firmId, kind: 'ticket', id });

  it('tells a firm what it missed, and that it does not know where it does not', () => {
    expect(heard.since('p1-0', 'f1')).toEqual([]);
    hear('a');
    hear('b', 'f2');
    const ids = (since: string, firmId = 'f1') =>
      heard.since(since, firmId)?.map(({ id }) => id) ?? null;
    expect(ids('p1-0')).toEqual(['a']);
    expect(ids('p1-0', 'f2')).toEqual(['b']);
    expect(heard.last).toBe('p1-2');
    for (const id of ['c', 'd', 'e']) hear(id);
    expect(ids('p1-3')).toEqual(['d', 'e']);
    expect(ids('p1-2')).toEqual(['c', 'd', 'e']);
    // Beyond the bound, of another process, from the future, or nothing of ours.
    for (const unknown of ['p1-1', 'p2-3', 'p1-9', 'p1', '', '3']) expect(ids(unknown)).toBeNull();
  });
});
