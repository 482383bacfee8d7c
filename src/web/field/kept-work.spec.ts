import { beforeEach, describe, expect, it } from '@jest/globals';
import { Failure } from '../parts/failure.js';
import type { FieldDatabase } from './field-database.js';
import { isReadSince, isToldBy, keptTicket, readWork } from './kept-work.js';
import type { OutboxEntry } from './outbox.js';

const ME = 'ilvo';
const VISIT = { id: 'V1', siteId: 'S1', state: 'planned', on: '2099-01-01' };

describe('what a technician’s phone keeps', () => {
  let reads: Map<string, unknown>;
  let database: FieldDatabase;
  /** Statuses of kits other than 200. */
  let kits: Record<string, number>;
  let open: string[];
  let asked: string[];
  /** Answers end in their middle. */
  let isCut: boolean;

  beforeEach(() => {
    reads = new Map();
    database = {
      get: (_store: string, key: string) => Promise.resolve(reads.get(key)),
      put: (_store: string, value: unknown, key: string) => Promise.resolve(reads.set(key, value)),
    } as never;
    kits = {};
    open = ['T1', 'T2', 'T3'];
    asked = [];
    isCut = false;
    const fetch = (url: string) => {
      const path = url.replace('/api/v1', '');
      asked.push(path);
      const kitOf = /^\/tickets\/(.*)\/kit$/.exec(path)?.[1];
      const status = kitOf === undefined ? 200 : (kits[kitOf] ?? 200);
      if (status === 0) return Promise.reject(new TypeError('no signal'));
      const visits = { items: [{ ...VISIT, ticketIds: ['T1', 'T2', 'T3'] }], next: null };
      const desk = { items: open.map((id) => ({ id })) };
      const body = path.startsWith('/visits?') ? visits : path === '/desk' ? desk : { path };
      return Promise.resolve({
        ok: status < 300,
        status,
        headers: new Headers({ etag: '"1"' }),
        text: () =>
          isCut
            ? Promise.reject(new TypeError('terminated'))
            : Promise.resolve(JSON.stringify(body)),
      });
    };
    Object.assign(globalThis, { fetch });
  });

  const read = () => readWork(database, ME);
  const isKept = async (id: string) => (await keptTicket(database, id)) !== undefined;

  it('keeps the kits after one that the locator refuses', async () => {
    kits = { T2: 422 };
    await read();
    expect([await isKept('T1'), await isKept('T2'), await isKept('T3')]).toEqual([
      true,
      false,
      true,
    ]);
  });

  it.each([0, 401, 408, 425, 429, 500, 503])(
    'stops at a %d, which all others would get',
    async (status) => {
      kits = { T1: status };
      await expect(read()).rejects.toBeInstanceOf(Failure);
      expect(asked.filter((path) => path.endsWith('/kit'))).toHaveLength(1);
    },
  );

  it('tells what is to be done before the kits of it, and keeps those of other open tickets as well', async () => {
    open = ['T1', 'T2', 'T3', 'T4'];
    let askedByThen: number | undefined;
    await readWork(
      database,
      ME,
      () => (askedByThen = asked.filter((one) => one.endsWith('/kit')).length),
    );
    expect(askedByThen).toBe(0);
    expect(await isKept('T4')).toBe(true);
    asked = [];
    await read();
    // One’s own are read anew; that of another’s ticket is an hour’s.
    expect(asked.filter((path) => path.endsWith('/kit')).sort()).toEqual(
      ['T1', 'T2', 'T3'].map((id) => `/tickets/${id}/kit`),
    );
  });

  it('keeps what was read before, where an answer ends in its middle', async () => {
    await read();
    const before = new Map(reads);
    isCut = true;
    await expect(read()).rejects.toMatchObject({ status: 0, isForLater: true });
    expect(reads).toEqual(before);
  });

  const entry = (more: Partial<OutboxEntry['subject']>, path: string): OutboxEntry => ({
    order: 1,
    id: 'id',
    happenedAt: '2026-03-02T08:00:00Z',
    personId: ME,
    personName: 'Ilvo Marsh',
    subject: { ticketId: 'T1', visitId: 'V1', siteId: 'S1', name: '1', ...more },
    path,
    body: {},
    words: '',
    state: 'taken',
    refusal: null,
    takenAt: '2026-03-02T08:00:00Z',
    isGivingUp: false,
  });

  it('knows what was taken once that is read anew, and of a closed ticket once it is not listed', async () => {
    const mending = entry({}, '/tickets/T1/mendings');
    expect(await isReadSince(database, mending)).toBe(false);
    kits = { T1: 422 };
    await read();
    // Still open, and not read itself.
    expect(await isReadSince(database, mending)).toBe(false);
    open = ['T2'];
    await read();
    expect(await isReadSince(database, mending)).toBe(true);
    const later = { ...mending, takenAt: '2999-01-01T00:00:00Z' };
    expect(await isReadSince(database, later)).toBe(false);
  });

  it('goes by what is shown, where something newer is kept already', () => {
    const heard = entry({}, '/tickets/T1/walk-tests');
    const value = { tickets: [{ id: 'T1' }], kit: {} };
    const readAt = (askedAt: string) => ({ value, askedAt }) as never;
    const [before, since] = [readAt('2026-03-02T07:00:00Z'), readAt('2026-03-02T09:00:00Z')];
    expect(isToldBy(heard, { work: since, ticket: before })).toBe(false);
    expect(isToldBy(heard, { work: before, ticket: since })).toBe(true);
    expect(isToldBy({ ...heard, takenAt: null }, { work: since, ticket: since })).toBe(false);
  });

  it('tells once what was read while it was on its way, as by another tab', () => {
    const heard = entry({}, '/tickets/T1/notes');
    const readBefore = (entryIds: string[], kind: 'kit' | 'inWords' = 'kit') =>
      ({ value: { [kind]: { entryIds } }, askedAt: '2026-03-02T07:00:00Z' }) as never;
    const isTold = (ticket: never, more = {}) =>
      isToldBy({ ...heard, ...more }, { work: undefined, ticket });
    expect(isTold(readBefore([]))).toBe(false);
    expect(isTold(readBefore(['other', 'id']))).toBe(true);
    expect(isTold(readBefore(['id'], 'inWords'))).toBe(true);
    // It arrived, and the answer was lost: it is sent once more, and told once all the same.
    expect(isTold(readBefore(['id']), { state: 'waiting', takenAt: null })).toBe(true);
  });

  it('knows of a visit only once the visits are read anew, whatever ticket it was said on', async () => {
    const begun = entry({}, '/visits/V1/moves');
    reads.set('ticket T1', { value: {}, askedAt: '2026-03-02T09:00:00Z' });
    expect(await isReadSince(database, begun)).toBe(false);
    await read();
    expect(await isReadSince(database, begun)).toBe(true);
  });
});
