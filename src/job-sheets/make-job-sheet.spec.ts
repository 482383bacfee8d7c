import { describe, expect, it } from '@jest/globals';
import type { JobObservation } from './job-sheet-facts.repository.js';
import { type JobSheetQuestion, makeJobSheet } from './make-job-sheet.js';

const heard = (room: number, outcome: JobObservation['outcome']): JobObservation => ({
  trunk: 'A',
  node: `A${room}`,
  function: 'bell',
  outcome,
  saidBy: 'Mara Quill',
});

function ticketOf(said: JobObservation[]) {
  const asBuilt = { trunks: [{ trunk: 'A', nodes: [] }] };
  const ticket = { id: 't', number: 7, said, asBuilt, location: null, walk: null };
  const facts = { technician: null, lastVisits: [] };
  const site = { id: 's', name: 'S', address: null, safetyNotes: null };
  const question = { visit: {}, site, facts, tickets: [ticket], van: null, furtherTickets: [] };
  const asked = { ...question, language: 'en', madeAt: new Date(0) } as unknown;
  return makeJobSheet(asked as JobSheetQuestion).tickets[0]!;
}

describe('a job sheet', () => {
  it('lists all that was said, up to 200', () => {
    const { said, furtherSaid } = ticketOf(
      Array.from({ length: 200 }, (_, room) => heard(room, 'works')),
    );
    expect(said).toHaveLength(200);
    expect(furtherSaid).toBe(0);
  });

  it('lists of more what is silent, then what is weak, then the latest, as they came, and how many it leaves out', () => {
    const outcomes = ['works', 'works', 'works', 'fails', 'weak'] as const;
    const all = Array.from({ length: 450 }, (_, room) => heard(room, outcomes[room % 5]!));
    const { said, furtherSaid } = ticketOf(all);
    expect(furtherSaid).toBe(250);
    expect(said).toHaveLength(200);
    // 90 are silent, 90 weak; the twenty latest of those that are heard are of the last 34 rooms.
    const expected = all.filter(({ outcome }, room) => outcome !== 'works' || room >= 450 - 34);
    expect(said).toEqual(ticketOf(expected).said);
  });

  it('lists the latest of what is silent where that alone is too much', () => {
    const all = Array.from({ length: 3_000 }, (_, room) => heard(room, 'fails'));
    const { said, furtherSaid } = ticketOf(all);
    expect(furtherSaid).toBe(2_800);
    expect(said).toEqual(ticketOf(all.slice(-200)).said);
  });
});
