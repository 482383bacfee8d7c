import { describe, expect, it } from '@jest/globals';
import type { FoundOnce } from './found-history.js';
import { loadDeskWords } from '../words/loaded.js';

// What says something is imported once the words are there.
await loadDeskWords('en');
const { foundAtNodes, foundByYear } = await import('./found-history.js');

const found = (foundAt: string, place: FoundOnce['place']): FoundOnce => {
  const rest = { ticketId: 't', ticketNumber: 1, component: null, mode: null, foundBy: 'Ilvo' };
  return { ...rest, id: foundAt, foundAt, place };
};
const span = { kind: 'span' as const, trunk: 'A', from: 'A3', to: 'A4' };
const ITEMS = [
  found('2026-01-01T03:00:00Z', span),
  found('2025-12-31T23:30:00Z', { kind: 'station', trunk: 'A', node: 'A4' }),
  found('2025-05-01T10:00:00Z', { kind: 'station', trunk: 'B', node: 'B1' }),
  found('2024-05-01T10:00:00Z', { kind: 'head-end' }),
];

describe('what was ever found', () => {
  it('is counted by the years of the site’s clock', () => {
    expect(foundByYear(ITEMS, 'Etc/UTC')).toEqual([
      { year: '2026', count: 1 },
      { year: '2025', count: 2 },
      { year: '2024', count: 1 },
    ]);
    expect(foundByYear(ITEMS, 'Asia/Kolkata')[0]).toEqual({ year: '2026', count: 2 });
  });

  it('is drawn at nodes: what is of a span where it leads', () => {
    expect(foundAtNodes(ITEMS).map(({ node, times }) => [node, times])).toEqual([
      ['A4', 2],
      ['B1', 1],
    ]);
  });
});
