import { describe, expect, it } from '@jest/globals';
import {
  type Answered,
  enter,
  isHeldUp,
  type EnteredEntry,
  type NewEntry,
  type OutboxEntry,
  type OutboxStore,
  sendAll,
  settleByChange,
  settleByDiscarding,
  settleByOtherTicket,
  stillHere,
} from './outbox.js';

/** mulberry32: the same cuts each time. */
function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** The page is gone: whatever it was about to do is not done. */
class Killed extends Error {}

/** A disk that outlives the page; the page may be killed before or after each thing that it asks of it. */
class Disk implements OutboxStore {
  rows: OutboxEntry[] = [];
  private last = 0;

  constructor(private readonly maybeKilled: () => void) {}

  private at<T>(work: () => T): Promise<T> {
    // As a database does: in a later turn, and whole or not at all.
    return Promise.resolve().then(() => {
      this.maybeKilled();
      const done = work();
      this.maybeKilled();
      return done;
    });
  }

  all() {
    return this.at(() => this.rows.map((row) => structuredClone(row)));
  }

  write(changed: readonly OutboxEntry[], added: readonly NewEntry[]) {
    return this.at(() => {
      for (const entry of changed)
        this.rows = this.rows.map((row) => (row.order === entry.order ? entry : row));
      for (const entry of added) this.rows.push({ ...structuredClone(entry), order: ++this.last });
    });
  }

  remove(orders: readonly number[]) {
    return this.at(() => {
      this.rows = this.rows.filter(({ order }) => !orders.includes(order));
    });
  }
}

/** A service that knows ids, and merges a ticket into another when it likes. */
class FakeService {
  readonly taken: { id: string; path: string; body: string }[] = [];
  readonly merged = new Map<string, string>();
  times = 0;

  post({ id, path, body }: OutboxEntry): Answered {
    this.times++;
    const content = JSON.stringify(body);
    const earlier = this.taken.find((one) => one.id === id);
    if (earlier !== undefined) {
      const isSame = earlier.path === path && earlier.body === content;
      return isSame ? { kind: 'taken' } : refused(409, null);
    }
    const [, , ticketId = ''] = path.split('/');
    const mergedInto = this.merged.get(ticketId);
    if (mergedInto !== undefined) return refused(409, mergedInto);
    if (body['isWrong'] === true) return refused(422, null);
    this.taken.push({ id, path, body: content });
    return { kind: 'taken' };
  }
}

function refused(status: number, mergedInto: string | null): Answered {
  return { kind: 'refused', refusal: { status, message: 'No.', mergedInto } };
}

const ME = 'me';
const entryOf = (n: number, ticketId: string, more: object = {}): EnteredEntry => ({
  id: `id-${n}`,
  happenedAt: new Date(Date.UTC(2026, 2, 2, 8, n)).toISOString(),
  personId: ME,
  personName: 'Ilvo Marsh',
  subject: { ticketId, visitId: null, siteId: 'site', name: ticketId },
  path: `/tickets/${ticketId}/reports`,
  body: { n, ...more },
  words: `entry ${n}`,
});

interface Played {
  entered: EnteredEntry[];
  service: FakeService;
  disk: Disk;
  discarded: number[];
  cuts: number;
}

/** A day on site: entries, cuts, kills and reloads in the middle of anything, a merge, and a person who settles what is refused. */
async function playDay(seed: number): Promise<Played> {
  const random = randomFrom(seed);
  let mayDie = true;
  let cuts = 0;
  const happens = (chance: number) => {
    const does = mayDie && random() < chance;
    if (does) cuts++;
    return does;
  };
  const disk = new Disk(() => {
    if (happens(0.04)) throw new Killed();
  });
  const service = new FakeService();
  const entered: EnteredEntry[] = [];
  const discarded: number[] = [];
  let ids = 1000;
  const send = async (entry: OutboxEntry): Promise<Answered> => {
    await Promise.resolve();
    if (happens(0.15)) return { kind: 'later' };
    const answered = service.post(entry);
    // It arrived, and its answer did not; or the page died between.
    if (happens(0.15)) return { kind: 'later' };
    if (happens(0.05)) throw new Killed();
    return answered;
  };
  const untilKilled = async (work: () => Promise<unknown>) => {
    try {
      await work();
    } catch (error) {
      if (!(error instanceof Killed)) throw error;
    }
  };
  const sync = () => untilKilled(() => sendAll(disk, ME, send, () => 'now'));
  const settle = () =>
    untilKilled(async () => {
      const entry = (await disk.all()).find(({ state }) => state === 'refused');
      if (entry?.refusal == null) return;
      const { mergedInto } = entry.refusal;
      if (mergedInto !== null && random() < 0.7) {
        await settleByOtherTicket(disk, entry, mergedInto, () => `id-${++ids}`);
      } else if (random() < 0.5) {
        const body = { ...entry.body, isWrong: false };
        await settleByChange(disk, entry, { id: `id-${++ids}`, body });
      } else {
        const id = `id-${++ids}`;
        // It is given up once the disk says so, however the page ends.
        const n = entry.body['n'] as number | undefined;
        await settleByDiscarding(disk, entry, { id, note: `gave up ${n}` }).finally(() => {
          if (n !== undefined && disk.rows.every((row) => row.body['n'] !== n)) discarded.push(n);
        });
      }
    });
  for (let n = 0; n < 24; n++) {
    const ticketId = random() < 0.6 ? 'T1' : 'T2';
    const entry = entryOf(n, ticketId, random() < 0.1 ? { isWrong: true } : {});
    await untilKilled(() => enter(disk, [entry]));
    // What the disk has was shown as entered; what it has not was refused to whoever entered it.
    if (disk.rows.some(({ id }) => id === entry.id)) entered.push(entry);
    if (n === 12) service.merged.set('T1', 'T2');
    if (random() < 0.6) await (random() < 0.2 ? Promise.all([sync(), sync()]) : sync());
    if (random() < 0.3) await settle();
  }
  mayDie = false;
  for (let left = 60; left > 0 && stillHere(disk.rows).length > 0; left--) {
    await sync();
    await settle();
  }
  return { entered, service, disk, discarded, cuts };
}

describe('the outbox', () => {
  it('loses, doubles and reorders nothing through 80 days of cuts, kills and reloads', async () => {
    let cuts = 0;
    let given = 0;
    for (let seed = 1; seed <= 80; seed++) {
      const { entered, service, disk, discarded, ...played } = await playDay(seed);
      expect([seed, stillHere(disk.rows).map(({ words }) => words)]).toEqual([seed, []]);
      const bodies = service.taken.map(({ body }) => JSON.parse(body) as Record<string, unknown>);
      const arrived = bodies.flatMap(({ n }) => (typeof n === 'number' ? n : []));
      const notes = bodies.flatMap(({ note }) => (typeof note === 'string' ? note : []));
      // Each once, by the slow way: what was entered, less what was given up, of which there is a note each.
      const wanted = entered.map(({ body }) => body['n'] as number);
      const gone = new Set(discarded);
      const kept = wanted.filter((n) => !gone.has(n));
      expect([seed, [...arrived].sort((a, b) => a - b)]).toEqual([seed, kept]);
      const recorded = [...gone].map((n) => `gave up ${n}`).sort();
      expect([seed, [...notes].sort()]).toEqual([seed, recorded]);
      for (const ticket of ['T1', 'T2']) {
        // What was given to the other ticket comes later there: its own stay in order.
        const own = orderOn(service, ticket);
        expect([seed, ticket, own]).toEqual([seed, ticket, [...own].sort((a, b) => a - b)]);
      }
      cuts += played.cuts;
      given += gone.size;
    }
    expect(cuts).toBeGreaterThan(800);
    expect(given).toBeGreaterThan(20);
  });

  const disk = () => new Disk(() => undefined);
  const never = () => Promise.reject(new Error('nothing is to be sent'));

  it('holds up what comes after a refused entry about the same ticket, and nothing else', async () => {
    const store = disk();
    const service = new FakeService();
    await enter(store, [entryOf(1, 'T1', { isWrong: true })]);
    await enter(store, [entryOf(2, 'T1')]);
    await enter(store, [entryOf(3, 'T2')]);
    const send = (entry: OutboxEntry) => Promise.resolve(service.post(entry));
    expect(await sendAll(store, ME, send, () => 'now')).toBe('all');
    expect(service.taken.map(({ id }) => id)).toEqual(['id-3']);
    const [first, second, third] = store.rows;
    expect([first?.state, second?.state, third?.state]).toEqual(['refused', 'waiting', 'taken']);
    expect(isHeldUp(second!, store.rows)).toBe(true);
    await settleByChange(store, first!, { id: 'id-9', body: { n: 1 } });
    await sendAll(store, ME, send, () => 'now');
    expect(service.taken.map(({ id }) => id)).toEqual(['id-3', 'id-9', 'id-2']);
  });

  it('sends nothing in another’s name, and stops where the session has ended', async () => {
    const store = disk();
    await enter(store, [entryOf(1, 'T1')]);
    expect(await sendAll(store, 'somebody else', never, () => 'now')).toBe('all');
    expect(stillHere(store.rows)).toHaveLength(1);
    const out = () => Promise.resolve({ kind: 'signed-out' } as const);
    expect(await sendAll(store, ME, out, () => 'now')).toBe('signed-out');
    expect(store.rows[0]?.state).toBe('waiting');
  });

  it('sends photos last, holds nothing up for one, and lets a picture go once it is taken', async () => {
    const store = disk();
    const service = new FakeService();
    const picture = new Blob(['a picture']);
    await enter(store, [{ ...entryOf(1, 'T1', { isWrong: true }), picture }]);
    await enter(store, [{ ...entryOf(2, 'T1'), picture }, entryOf(3, 'T1'), entryOf(4, 'T2')]);
    const send = (entry: OutboxEntry) => Promise.resolve(service.post(entry));
    await sendAll(store, ME, send, () => 'now');
    expect(service.taken.map(({ id }) => id)).toEqual(['id-3', 'id-4', 'id-2']);
    expect(store.rows.map((row) => row.picture?.size)).toEqual([
      9,
      undefined,
      undefined,
      undefined,
    ]);
    await settleByDiscarding(store, store.rows[0]!, { id: 'id-8', note: 'blurred' });
    expect(store.rows[0]).toMatchObject({ path: '/tickets/T1/notes', state: 'waiting' });
    expect(store.rows[0]?.picture).toBeUndefined();
  });

  it('records what is given up on the ticket that has the reports now', async () => {
    const store = disk();
    const service = new FakeService();
    service.merged.set('T1', 'T2');
    const send = (entry: OutboxEntry) => Promise.resolve(service.post(entry));
    await enter(store, [entryOf(1, 'T1')]);
    await sendAll(store, ME, send, () => 'now');
    await settleByDiscarding(store, store.rows[0]!, { id: 'id-7', note: 'not needed' });
    await sendAll(store, ME, send, () => 'now');
    expect(service.taken).toEqual([
      expect.objectContaining({ id: 'id-7', path: '/tickets/T2/notes' }),
    ]);
  });
});

function orderOn({ taken }: FakeService, ticket: string): number[] {
  return taken
    .filter(({ id, path }) => path === `/tickets/${ticket}/reports` && Number(id.slice(3)) < 1000)
    .map(({ body }) => (JSON.parse(body) as { n: number }).n);
}
