import { describe, expect, it } from '@jest/globals';
import { type FieldError, InvalidInputError } from '../shared/domain-error.js';
import { checkFinding, type SentFinding } from './check-finding.js';
import type { DrawnRecord } from '../sites/drawing.js';

const node = (
  code: string,
  fedFrom: string | null,
  kind: 'station' | 'junction-box' = 'station',
) => ({
  node: code,
  kind,
  fedFrom,
  cableMetres: 10,
  room: null,
});
const drawing: DrawnRecord = {
  trunks: [
    { trunk: 'A', nodes: [node('1', null), node('T', '1', 'junction-box'), node('2', 'T')] },
  ],
};

function errorsOf(finding: SentFinding): FieldError[] {
  try {
    checkFinding(finding, drawing);
  } catch (error) {
    if (error instanceof InvalidInputError) return error.errors;
  }
  return [];
}

function fieldsWrong(finding: SentFinding): string[] {
  return errorsOf(finding).map(({ field }) => field);
}

describe('checkFinding', () => {
  it('knows every kind of place', () => {
    const span = { kind: 'span', trunk: 'A', from: null, to: '1' } as const;
    expect(checkFinding({ place: { kind: 'span', trunk: 'A', to: '1' } }, drawing)).toEqual(span);
    const port = { kind: 'port', trunk: 'A' } as const;
    expect(checkFinding({ place: port, mode: 'no-output' }, drawing)).toEqual(port);
    const head = { kind: 'head-end' } as const;
    expect(checkFinding({ place: head, mode: 'amplifier' }, drawing)).toEqual(head);
    const station = { kind: 'station', trunk: 'A', node: '2' } as const;
    expect(checkFinding({ place: station, component: 'station' }, drawing)).toEqual(station);
    expect(checkFinding({}, drawing)).toBeNull();
  });

  it('says what a kind of place is missing', () => {
    expect(errorsOf({ place: { kind: 'port' } })).toEqual([
      { field: '/place/trunk', reason: 'is missing: a port is of a trunk' },
    ]);
    expect(errorsOf({ place: { kind: 'span', trunk: 'A' } })).toEqual([
      { field: '/place/to', reason: 'is missing: a span leads to a node' },
    ]);
    expect(errorsOf({ place: { kind: 'station', trunk: 'A' } })).toEqual([
      { field: '/place/node', reason: 'is missing: a station stands at a node' },
    ]);
  });

  it('names what cannot be', () => {
    expect(fieldsWrong({ component: 'cable' })).toEqual(['/component']);
    expect(fieldsWrong({ place: { kind: 'port', trunk: 'B' } })).toEqual(['/place/trunk']);
    expect(fieldsWrong({ place: { kind: 'station', trunk: 'A', node: 'T' } })).toEqual([
      '/place/node',
    ]);
    expect(fieldsWrong({ place: { kind: 'span', trunk: 'A', from: '1', to: '2' } })).toEqual([
      '/place/from',
    ]);
    const station = { kind: 'station', trunk: 'A', node: '2' } as const;
    expect(fieldsWrong({ place: station, component: 'cable', mode: 'parted' })).toEqual([
      '/component',
      '/mode',
    ]);
  });
});
