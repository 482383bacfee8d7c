import { describe, expect, it } from '@jest/globals';
import type { DrawnRecord } from '../sites/drawing.js';
import { type HeardOnTicket, toProofs } from './proofs.js';

const station = (node: string, fedFrom: string | null) => ({
  node,
  kind: 'station' as const,
  fedFrom,
  cableMetres: 10,
  room: null,
});
const drawing: DrawnRecord = {
  trunks: [{ trunk: 'A', nodes: [station('1', null), station('2', '1'), station('3', '2')] }],
};
const NOW = new Date('2026-02-01T00:00:00Z');
const heard = (more: Partial<HeardOnTicket>): HeardOnTicket => ({
  ticketId: 'T',
  trunk: 'A',
  node: '3',
  function: 'bell',
  outcome: 'works',
  saidByKind: 'technician',
  observedAt: new Date('2026-01-22T00:00:00Z'),
  period: 0,
  ...more,
});

describe('what counts as proof', () => {
  it('is what a technician last saw working, on the drawing and before now', () => {
    const earlier = heard({ observedAt: new Date('2026-01-02T00:00:00Z') });
    expect(toProofs(drawing, [heard({}), earlier], NOW)).toEqual([
      { trunk: 'A', node: '3', function: 'bell', daysAgo: 10 },
    ]);
    expect(toProofs(drawing, [heard({ observedAt: NOW })], NOW)).toEqual([]);
    expect(toProofs(drawing, [heard({ node: '9' })], NOW)).toEqual([]);
  });

  it('is not the office’s word', () => {
    expect(toProofs(drawing, [heard({ saidByKind: 'office' })], NOW)).toEqual([]);
  });

  it('is not a room that works again without a mending, or one behind it', () => {
    const failed = heard({ node: '2', outcome: 'fails', saidByKind: 'office' });
    const nodes = (...all: HeardOnTicket[]) =>
      toProofs(drawing, [failed, ...all], NOW).map(({ node }) => node);
    expect(nodes(heard({ node: '1' }), heard({ node: '2' }), heard({ node: '3' }))).toEqual(['1']);
    expect(nodes(heard({ node: '2', period: 1 }))).toEqual(['2']);
    expect(nodes(heard({ node: '2', ticketId: 'U' }))).toEqual(['2']);
  });
});
