import { describe, expect, it } from '@jest/globals';
import { isToBeProven, lastMended, mendingTakenBack, withoutTakenBack } from './mended-here.js';
import type { OutboxEntry } from './outbox.js';

const SUBJECT = { ticketId: 'T1', visitId: null, siteId: 'S1', name: '1, Larkfield' };

function entry(id: string, path: string, more: Partial<OutboxEntry> = {}): OutboxEntry {
  return {
    ...{ order: 1, id, happenedAt: '2026-03-02T08:00:00Z', personId: 'P1', personName: 'Ilvo' },
    ...{ subject: SUBJECT, path, body: {}, words: id, state: 'waiting', refusal: null },
    ...{ takenAt: null, isGivingUp: false, ...more },
  };
}

const mended = (id: string, more = {}) => entry(id, '/tickets/T1/mendings', more);
const back = (id: string, of: string, more = {}) =>
  entry(id, `/tickets/T1/mendings/${of}/withdraw`, more);
const note = entry('N1', '/tickets/T1/notes');
const idsOf = (entries: readonly OutboxEntry[]) => entries.map(({ id }) => id);
const kit = (...ids: (string | null)[]) => ({
  ticketId: 'T1',
  notes: ids.map((mendingId) => {
    return {
      mendingId,
      words: `of ${mendingId}`,
      saidBy: 'Ilvo',
      happenedAt: '2026-03-02T07:00:00Z',
    };
  }),
});

describe('mendings that are taken back on the phone', () => {
  it('are named by their entry', () => {
    expect(mendingTakenBack(back('B1', 'M1'))).toBe('M1');
    expect(mendingTakenBack(mended('M1'))).toBeUndefined();
    expect(mendingTakenBack(entry('R1', '/tickets/T1/readings/M1/withdraw'))).toBeUndefined();
  });

  it('are to be proven until something else is said of the trouble', () => {
    const isToProve = (state: string, ...untold: OutboxEntry[]) =>
      isToBeProven({ id: 'T1', state }, untold);
    expect(isToProve('at-work')).toBe(false);
    expect(isToProve('mended')).toBe(true);
    expect(isToProve('bridged')).toBe(true);
    expect(isToProve('at-work', mended('M1'), note)).toBe(true);
    expect(isToProve('at-work', mended('M1'), entry('W1', '/tickets/T1/walk-tests'))).toBe(false);
    expect(isToProve('mended', back('B1', 'M1'))).toBe(false);
    expect(isToProve('at-work', mended('M1', { state: 'refused' }))).toBe(false);
  });

  it('are gone with what takes them back; of one that the service has, that it is taken back stays', () => {
    expect(idsOf(withoutTakenBack([note, mended('M1'), back('B1', 'M1')]))).toEqual(['N1']);
    expect(idsOf(withoutTakenBack([mended('M1'), back('B0', 'M0')]))).toEqual(['M1', 'B0']);
  });

  it('stand while taking them back is refused', () => {
    const refused = back('B1', 'M1', { state: 'refused' });
    expect(idsOf(withoutTakenBack([mended('M1'), refused]))).toEqual(['M1', 'B1']);
    expect(lastMended(kit(), [mended('M1'), refused])?.id).toBe('M1');
  });

  it('leave the one before as the last that stands', () => {
    expect(lastMended(kit('M0', null), [])?.id).toBe('M0');
    expect(lastMended(kit('M0'), [mended('M1')])?.id).toBe('M1');
    expect(lastMended(kit('M0'), [mended('M1'), back('B1', 'M1')])?.id).toBe('M0');
    expect(lastMended(kit('M0'), [back('B0', 'M0')])).toBeUndefined();
    expect(lastMended(kit(null), [note])).toBeUndefined();
    const elsewhere = mended('M9', { subject: { ...SUBJECT, ticketId: 'T9' } });
    expect(lastMended(kit('M0'), [elsewhere])?.id).toBe('M0');
  });
});
