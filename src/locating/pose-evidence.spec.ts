import { describe, expect, it } from '@jest/globals';
import { InvalidLocateRequest } from '../locator/index.js';
import type { Heard } from '../reports/observation.js';
import { asCarried, type EvidenceFacts, type PosedEvidence } from './pose-evidence.js';

const NODES = ['1', '2', '3', '4', '5', '6'];
let minute = 0;

function heard(disconnectedBelow: string | null): Heard {
  return {
    id: String(++minute),
    trunk: 'A',
    node: '1',
    function: 'announcement',
    outcome: 'fails',
    saidBy: 'Mara Quill',
    saidByKind: 'technician',
    how: 'gone-through',
    observedAt: new Date(Date.UTC(2026, 0, 1, 8, minute)),
    period: 0,
    withdrawalId: null,
    disconnectedBelow,
  };
}

const facts = {
  ticket: { state: 'open', period: 0, openedAt: new Date('2026-01-01T08:00:00Z') },
  drawing: {
    headEnd: {},
    trunks: [
      {
        trunk: 'A',
        nodes: NODES.map((node, i) => {
          const fedFrom = NODES[i - 1] ?? null;
          return { node, kind: 'station', fedFrom, cableMetres: 10, room: null };
        }),
      },
    ],
  },
  headEndNow: {},
  heard: [null, '1', '2', '3', '4', '5'].map(heard),
  entries: [],
  readings: [],
  looks: [],
} as unknown as EvidenceFacts;

const placesOf = ({ evidence }: PosedEvidence) =>
  evidence.used.flatMap(({ disconnectedBelow }) => disconnectedBelow ?? []);

/** As the locator does, but at a number that is easy to see. */
function carrying(most: number, tried: number[]) {
  return (posed: PosedEvidence): PosedEvidence => {
    const places = placesOf(posed);
    tried.push(places.length);
    if (places.length <= most) return posed;
    const pointer = '/observations/5/disconnectedBelow';
    throw new InvalidLocateRequest([{ pointer, reason: 'more than can be carried' }]);
  };
}

describe('a ticket whose trunk was disconnected at more places than the locator carries', () => {
  it('goes by the last of them, and tells which it left out', () => {
    const tried: number[] = [];
    const posed = asCarried(facts, carrying(2, tried));
    expect(tried).toEqual([5, 4, 3, 2]);
    expect(placesOf(posed)).toEqual(['4', '5']);
    expect(posed.evidence.leftOut.map(({ why }) => why)).toEqual(
      [1, 2, 3].map(() => ({ kind: 'other-disconnections', trunk: 'A', most: 2 })),
    );
  });

  it('is refused where it is not for them', () => {
    const tried: number[] = [];
    expect(() => asCarried(facts, carrying(-1, tried))).toThrow(InvalidLocateRequest);
    expect(tried.at(-1)).toBe(0);
    const broken = () => {
      throw new RangeError('something else');
    };
    expect(() => asCarried(facts, broken)).toThrow(RangeError);
  });
});
