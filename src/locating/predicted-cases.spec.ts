import { describe, expect, it } from '@jest/globals';
import type { Place } from '../locator/index.js';
import { predictedCases } from './predicted-cases.js';
import type { EntryKind } from '../tickets/ticket-log.js';

const station = (node: string): Place => ({ kind: 'station', trunk: 'A', node });
const at = (minute: number) => new Date(Date.UTC(2026, 0, 1, 8, minute));
const made = (minute: number, node: string, ticketId = 'T') => ({
  ticketId,
  madeAt: at(minute),
  places: [{ place: station(node), probability: 0.7 }],
});
const entry = (minute: number, kind: EntryKind, node?: string, ticketId = 'T') => ({
  ticketId,
  recordedAt: at(minute),
  kind,
  details: { place: node === undefined ? null : station(node) },
});

describe('what was predicted and found', () => {
  it('is the last prediction before the first finding, up to each mending', () => {
    const cases = predictedCases(
      [made(1, '1'), made(2, '2'), made(5, '3'), made(8, '4')],
      [
        entry(2, 'finding', '2'),
        entry(6, 'finding', '5'),
        entry(7, 'mending'),
        entry(9, 'finding', '4'),
      ],
    );
    expect(cases).toEqual([
      { ticketId: 'T', predicted: made(2, '2').places, found: [station('2'), station('5')] },
      { ticketId: 'T', predicted: made(8, '4').places, found: [station('4')] },
    ]);
  });

  it('says so where nothing was predicted, or nothing found', () => {
    expect(
      predictedCases(
        [made(1, '1')],
        [entry(2, 'finding'), entry(3, 'finding', '2', 'U'), entry(4, 'mending', undefined, 'V')],
      ),
    ).toEqual([
      { ticketId: 'T', predicted: made(1, '1').places, found: [] },
      { ticketId: 'U', predicted: null, found: [station('2')] },
    ]);
  });
});
