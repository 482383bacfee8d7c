import { describe, expect, it } from '@jest/globals';
import { underOwnName } from './own-name.js';

const MOVE = 'POST /api/v1/visits/:visitId/moves';
const REPORT = 'POST /api/v1/tickets/:ticketId/reports';
const technician = { role: 'technician' } as const;
const client = { role: 'client' } as const;

describe('underOwnName', () => {
  it('puts a technician’s own name on what was done, whatever the field', () => {
    const sent = { by: 'B', testedBy: 'B', takenBy: { name: 'B', kind: 'office' }, to: 'done' };
    expect(underOwnName(sent, MOVE, technician, 'A')).toEqual({
      by: 'A',
      testedBy: 'A',
      takenBy: { name: 'A', kind: 'technician' },
      to: 'done',
    });
  });

  it('lets a technician quote the office in a report, and no other technician', () => {
    const office = { saidBy: { name: 'Mara', kind: 'office' } };
    expect(underOwnName(office, REPORT, technician, 'A')).toEqual(office);
    const colleague = { saidBy: { name: 'B', kind: 'technician' } };
    expect(underOwnName(colleague, REPORT, technician, 'A')).toEqual({
      saidBy: { name: 'A', kind: 'technician' },
    });
  });

  it('makes an office of a client’s person, who may name a colleague but signs alone', () => {
    const sent = { saidBy: { name: 'Mara', kind: 'technician' } };
    expect(underOwnName(sent, REPORT, client, 'A')).toEqual({
      saidBy: { name: 'Mara', kind: 'office' },
    });
    const signing = 'POST /api/v1/visits/:visitId/signatures';
    expect(underOwnName({ name: 'B' }, signing, client, 'A')).toEqual({ name: 'A' });
  });

  it('leaves those who plan, and what is no body, as they are', () => {
    const sent = { by: 'B' };
    expect(underOwnName(sent, MOVE, { role: 'dispatcher' }, 'A')).toBe(sent);
    for (const odd of [undefined, null, 'text', ['by'], Buffer.from('by')]) {
      expect(underOwnName(odd, MOVE, technician, 'A')).toBe(odd);
    }
    expect(underOwnName({ saidBy: 7, by: null }, MOVE, technician, 'A')).toEqual({
      saidBy: 7,
      by: null,
    });
  });
});
