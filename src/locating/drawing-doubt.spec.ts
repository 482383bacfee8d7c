import { describe, expect, it } from '@jest/globals';
import { DEFAULT_ERROR_RATES, type ErrorRates } from '../locator/index.js';
import type { Heard } from '../reports/observation.js';
import type { DrawnRecord } from '../sites/drawing.js';
import { wordsIn } from '../words/index.js';
import { drawingDoubt } from './drawing-doubt.js';
import { toEvidence } from './evidence.js';

const ROOMS = Array.from({ length: 12 }, (_, i) => String(i + 1));
const drawing: DrawnRecord = {
  trunks: [
    {
      trunk: 'A',
      nodes: ROOMS.map((node, i) => {
        const fedFrom = ROOMS[i - 1] ?? null;
        return { node, kind: 'station' as const, fedFrom, cableMetres: 10, room: null };
      }),
    },
  ],
};

/** Every second room silent, and those between heard. */
const heard = ROOMS.map((node, i): Heard => {
  return {
    id: node,
    trunk: 'A',
    node,
    function: 'lamp',
    outcome: i % 2 === 0 ? 'fails' : 'works',
    saidBy: 'Mara Quill',
    saidByKind: 'technician',
    how: 'gone-through',
    observedAt: new Date('2026-01-01T08:00:00Z'),
    period: 0,
    withdrawalId: null,
  };
});
const known = {
  drawing,
  evidence: toEvidence(drawing, heard, null),
  exposure: { days: 30 },
  expected: { headEnd: {}, trunks: [] },
};

describe('doubt about the drawing', () => {
  it('goes by how often people err by the firm’s record', () => {
    const doubt = (errors: ErrorRates) =>
      drawingDoubt({ ...known, errors }, wordsIn('en'))?.drawingMayBeWrong;
    const { office } = DEFAULT_ERROR_RATES;
    const technician = {
      good: [0.5, 0.1, 0.4],
      weak: [0.4, 0.3, 0.3],
      dead: [0.4, 0.1, 0.5],
      confused: 0,
    } as const;
    expect(doubt(DEFAULT_ERROR_RATES)).toBe(true);
    expect(doubt({ office, technician })).toBe(false);
  });
});
