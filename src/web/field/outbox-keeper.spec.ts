import { beforeEach, describe, expect, it } from '@jest/globals';
import { keepIn } from '../parts/kept.js';
import { ServiceClock } from '../parts/service-clock.js';
import type { NewEntry, OutboxEntry, OutboxStore } from './outbox.js';
import { OutboxKeeper } from './outbox-keeper.js';

const ILVO = { id: 'ilvo', name: 'Ilvo Marsh' };
const BEA = { id: 'bea', name: 'Bea Orne' };
const SUBJECT = { ticketId: 'T1', visitId: null, siteId: 'S1', name: '1, Larkfield' };
const note = (text: string) => ({ path: '/tickets/T1/notes', body: { note: text }, words: text });

class Disk implements OutboxStore {
  rows: OutboxEntry[] = [];
  writes = 0;
  private last = 0;

  all() {
    return Promise.resolve(this.rows.map((row) => structuredClone(row)));
  }

  write(changed: readonly OutboxEntry[], added: readonly NewEntry[]) {
    this.writes++;
    for (const entry of changed)
      this.rows = this.rows.map((row) => (row.order === entry.order ? entry : row));
    for (const entry of added) this.rows.push({ ...structuredClone(entry), order: ++this.last });
    return Promise.resolve();
  }

  remove(orders: readonly number[]) {
    this.rows = this.rows.filter(({ order }) => !orders.includes(order));
    return Promise.resolve();
  }
}

interface Fetched {
  method: string;
  body: string | null;
  headers: Record<string, string>;
}

/** The service, as far as the phone sees it. */
class Answers {
  person = ILVO;
  posted: { path: string; body: Record<string, unknown> }[] = [];
  asked = 0;
  isReached = true;
  afterPost: () => void = () => undefined;
  beforeAnswer: () => Promise<void> = () => Promise.resolve();
  /** So many answers end in their middle. */
  cuts = 0;
  /** Of the next POSTs. */
  refusals: [status: number, problem: object][] = [];

  readonly fetch = async (url: string, { method, body, headers }: Fetched) => {
    this.asked++;
    if (!this.isReached) return Promise.reject(new TypeError('no signal'));
    const path = url.replace('/api/v1', '');
    const csrfToken = `token of ${this.person.id}`;
    if (method === 'GET') return answer(200, { person: this.person, csrfToken });
    if (headers['x-csrf-token'] !== csrfToken) return answer(403, {});
    const refusal = this.refusals.shift();
    if (refusal !== undefined) return answer(...refusal);
    this.posted.push({ path, body: JSON.parse(body ?? '{}') as Record<string, unknown> });
    this.afterPost();
    await this.beforeAnswer();
    if (this.cuts-- > 0) return answer(201, {}, () => Promise.reject(new TypeError('terminated')));
    return answer(201, {});
  };
}

function answer(status: number, body: object, text = () => Promise.resolve(JSON.stringify(body))) {
  return Promise.resolve({
    ok: status < 300,
    status,
    headers: new Headers(),
    text,
  });
}

describe('the keeper of the outbox', () => {
  let disk: Disk;
  let service: Answers;
  let locked: Promise<unknown>;
  let held: Map<string, Promise<unknown>>;
  let locks: number;

  beforeEach(() => {
    disk = new Disk();
    service = new Answers();
    locked = Promise.resolve();
    held = new Map();
    locks = 0;
    const request = (name: string, work: () => Promise<void>) => {
      locks++;
      const done = (held.get(name) ?? Promise.resolve()).then(work, work);
      held.set(name, done);
      locked = Promise.allSettled([locked, done]);
      return done;
    };
    Object.defineProperty(globalThis, 'navigator', {
      value: { locks: { request }, languages: ['en'] },
      configurable: true,
    });
    Object.assign(globalThis, { document: { visibilityState: 'visible' }, fetch: service.fetch });
  });

  const keeperOf = (person: typeof ILVO) =>
    new OutboxKeeper(disk, person as never, () => undefined);

  /** Until nothing holds the lock or waits for it. */
  const quiet = async () => {
    for (let before; before !== locked;) {
      before = locked;
      await locked;
    }
  };

  it('sends nothing by the session of somebody else', async () => {
    const keeper = keeperOf(ILVO);
    service.person = BEA;
    await keeper.enter(SUBJECT, [note('The key is with the caretaker')]);
    await quiet();
    expect(service.posted).toEqual([]);
    expect(keeper.reach).toBe('signed-out');
    expect(disk.rows).toMatchObject([{ state: 'waiting', personId: 'ilvo' }]);
    // Once it is Bea’s own phone place, hers goes up, and his still waits.
    const hers = keeperOf(BEA);
    await hers.enter(SUBJECT, [note('Of Bea')]);
    await quiet();
    expect(service.posted.map(({ body }) => body['note'])).toEqual(['Of Bea']);
    service.person = ILVO;
    keeper.sync();
    await quiet();
    expect(service.posted.map(({ body }) => body['note'])).toEqual([
      'Of Bea',
      'The key is with the caretaker',
    ]);
    expect(keeper.reach).toBe('reached');
  });

  it('knows what waits once it has looked, and not before', async () => {
    await keeperOf(ILVO).enter(SUBJECT, [note('The key is with the caretaker')]);
    const next = keeperOf(ILVO);
    expect(next.hasLooked).toBe(false);
    await next.forget(() => Promise.resolve(false));
    expect([next.hasLooked, next.entries.length]).toEqual([true, 1]);
  });

  it('stops where somebody else signs in between two entries', async () => {
    const keeper = keeperOf(ILVO);
    service.afterPost = () => (service.person = BEA);
    await keeper.enter(SUBJECT, [note('first'), note('second')]);
    await quiet();
    expect(service.posted.map(({ body }) => body['note'])).toEqual(['first']);
    expect(disk.rows.map(({ state }) => state)).toEqual(['taken', 'waiting']);
    expect(keeper.reach).toBe('signed-out');
  });

  it('keeps what the service wants to be confirmed, and sends it as meant so', async () => {
    const keeper = keeperOf(ILVO);
    const problem = { detail: 'The walk test is not whole.', confirm: ['not-all-heard'] };
    service.refusals = [[409, problem]];
    const move = { path: '/visits/V1/moves', body: { to: 'done' }, words: 'The visit ended' };
    await keeper.enter({ ...SUBJECT, ticketId: null, visitId: 'V1' }, [move]);
    await quiet();
    const [refused] = keeper.entries;
    expect(refused?.refusal).toMatchObject({ status: 409, confirm: ['not-all-heard'] });
    await keeper.confirm(refused!);
    await quiet();
    expect(service.posted).toEqual([
      {
        path: '/visits/V1/moves',
        body: expect.objectContaining({ to: 'done', confirmed: ['not-all-heard'] }),
      },
    ]);
  });

  it('keeps what one touch entered as one, or nothing of it', async () => {
    const keeper = keeperOf(ILVO);
    service.isReached = false;
    await keeper.enter(SUBJECT, [note('found'), note('mended')]);
    expect(disk.rows.map(({ words }) => words)).toEqual(['found', 'mended']);
    expect(disk.writes).toBe(1);
    const [found, mended] = disk.rows.map(({ happenedAt }) => Date.parse(happenedAt));
    expect(found).toBeLessThan(mended!);
  });

  it('sends a picture as text, with when it was taken', async () => {
    const keeper = keeperOf(ILVO);
    const bytes = Uint8Array.from({ length: 100_000 }, (_, at) => at % 251);
    const path = '/tickets/T1/photos';
    const picture = new Blob([bytes]);
    await keeper.enter(SUBJECT, [{ path, body: { caption: null }, words: 'A photo', picture }]);
    await quiet();
    const [{ body } = { body: {} as Record<string, unknown> }] = service.posted;
    const sent = Uint8Array.from(atob(String(body['image'])), (letter) => letter.charCodeAt(0));
    expect(sent).toEqual(bytes);
    expect(body).toMatchObject({ caption: null, takenAt: disk.rows[0]?.happenedAt });
    expect(disk.rows[0]).toMatchObject({ state: 'taken', picture: undefined });
  });

  it('refuses a picture that the phone has lost, and says so', async () => {
    const keeper = keeperOf(ILVO);
    service.isReached = false;
    const picture = new Blob(['x']);
    const photo = { path: '/tickets/T1/photos', body: {}, words: 'A photo', picture };
    await keeper.enter(SUBJECT, [photo]);
    await quiet();
    service.isReached = true;
    const lost = { arrayBuffer: () => Promise.reject(new Error('gone')) } as unknown as Blob;
    disk.all = () => Promise.resolve(disk.rows.map((row) => ({ ...row, picture: lost })));
    keeper.sync();
    await quiet();
    expect(disk.rows[0]?.state).toBe('refused');
    expect(disk.rows[0]?.refusal?.message).toBe('The picture is no longer on this phone.');
  });

  it('keeps why it was refused, and of which field', async () => {
    const keeper = keeperOf(ILVO);
    const errors = [{ field: '/readings/0/volts', reason: 'is above 60' }];
    service.refusals = [[422, { detail: 'That will not do.', errors }]];
    await keeper.enter(SUBJECT, [note('x')]);
    await quiet();
    expect(keeper.entries[0]?.refusal).toMatchObject({ message: 'That will not do.', errors });
  });

  it('has at most one sending wait for the one that is under way', async () => {
    const keeper = keeperOf(ILVO);
    for (let times = 0; times < 50; times++) keeper.sync();
    await quiet();
    expect(locks).toBeLessThanOrEqual(2);
    // What is entered during a sending is still sent.
    await keeper.enter(SUBJECT, [note('first')]);
    await keeper.enter(SUBJECT, [note('second')]);
    await quiet();
    expect(service.posted).toHaveLength(2);
  });

  it('says no longer that there is no signal where nothing waits', async () => {
    const keeper = keeperOf(ILVO);
    service.isReached = false;
    await keeper.enter(SUBJECT, [note('first')]);
    await quiet();
    expect(keeper.reach).toBe('later');
    // Another tab sent it.
    disk.rows = disk.rows.map((row) => ({ ...row, state: 'taken', takenAt: 'now' }));
    let told = 0;
    keeper.listen(() => told++);
    keeper.sync();
    await quiet();
    expect(keeper.reach).toBe('unknown');
    expect(told).toBeGreaterThan(0);
  });

  it('dates by the clock of the service, and anew what was dated into its future', async () => {
    let phone = Date.parse('2026-03-09T09:00:00Z');
    const clock = new ServiceClock(
      keepIn(() => ({}) as Storage),
      () => phone,
    );
    const keeper = new OutboxKeeper(disk, ILVO as never, () => undefined, clock);
    const errors = [{ field: '/saidAt', reason: 'is in the future' }];
    service.refusals = [[422, { detail: 'No.', errors }]];
    await keeper.enter(SUBJECT, [note('while nothing was known of the clock')]);
    await quiet();
    clock.hear('Mon, 09 Mar 2026 08:40:00 GMT', phone);
    await keeper.enter({ ...SUBJECT, ticketId: 'T2' }, [note('since')]);
    await quiet();
    phone += 60_000;
    await keeper.sendAgain(keeper.entries[0]!);
    await quiet();
    const sent = service.posted.map(({ body }) => body['saidAt']);
    expect(sent).toEqual(['2026-03-09T08:40:01.000Z', '2026-03-09T08:41:01.000Z']);
    expect(disk.rows[0]?.happenedAt).toBe(sent[1]);
  });

  it('discards what was refused while something else goes up', async () => {
    const keeper = keeperOf(ILVO);
    service.refusals = [[422, { detail: 'No.' }]];
    await keeper.enter(SUBJECT, [note('first')]);
    await quiet();
    const [refused] = keeper.entries;
    let arrive: () => void = () => undefined;
    const isOnItsWay = new Promise<void>((started) => {
      service.beforeAnswer = () => {
        started();
        return new Promise((arrived) => (arrive = arrived));
      };
    });
    await keeper.enter({ ...SUBJECT, ticketId: 'T2' }, [
      { path: '/tickets/T2/notes', body: { note: 'slow' }, words: 'slow' },
    ]);
    await isOnItsWay;
    await keeper.discard(refused!, 'Discarded: first');
    expect(keeper.entries.map(({ words, state }) => [words, state])).toEqual([
      ['Discarded: first', 'waiting'],
      ['slow', 'waiting'],
    ]);
    service.beforeAnswer = () => Promise.resolve();
    arrive();
    await quiet();
    expect(service.posted.map(({ body }) => body['note'])).toEqual(['slow', 'Discarded: first']);
  });

  it('settles a refused entry once, however often that is touched', async () => {
    const keeper = keeperOf(ILVO);
    service.refusals = [[422, { detail: 'No.' }]];
    await keeper.enter(SUBJECT, [note('first')]);
    await quiet();
    const [refused] = keeper.entries;
    await Promise.all([
      keeper.discard(refused!, 'Discarded: first'),
      keeper.discard(refused!, 'Discarded: first'),
      keeper.sendAgain(refused!),
    ]);
    await quiet();
    expect(service.posted.map(({ body }) => body['note'])).toEqual(['Discarded: first']);
  });

  it('loses nothing of what is entered in place of an entry that is settled meanwhile', async () => {
    const keeper = keeperOf(ILVO);
    service.refusals = [[422, { detail: 'No.' }]];
    await keeper.enter(SUBJECT, [note('first')]);
    await quiet();
    const [refused] = keeper.entries;
    await keeper.sendAgain(refused!);
    await quiet();
    await keeper.enter(SUBJECT, [note('changed'), note('and more')], refused);
    await quiet();
    expect(service.posted.map(({ body }) => body['note'])).toEqual([
      'first',
      'changed',
      'and more',
    ]);
    expect(new Set(service.posted.map(({ body }) => body['id'])).size).toBe(3);
  });

  it('sends the same once more where the answer ends in its middle', async () => {
    const keeper = keeperOf(ILVO);
    service.cuts = 1;
    await keeper.enter(SUBJECT, [note('first')]);
    await quiet();
    expect([keeper.reach, disk.rows[0]?.state]).toEqual(['later', 'waiting']);
    keeper.sync();
    await quiet();
    expect([keeper.reach, disk.rows[0]?.state]).toEqual(['reached', 'taken']);
    const [one, other] = service.posted.map(({ body }) => body['id']);
    expect([service.posted.length, other]).toEqual([2, one]);
  });

  it('takes it as done where it is so already by another phone, unless it says more', async () => {
    const keeper = keeperOf(ILVO);
    const so = (state: string): [number, object] => {
      const type = 'urn:lastheard:problem:move-not-allowed';
      return [409, { type, detail: 'No.', from: state, to: state }];
    };
    service.refusals = [so('under-way'), so('done')];
    const move = (body: object) => ({ path: '/visits/V1/moves', body: { ...body }, words: 'x' });
    await keeper.enter(SUBJECT, [
      move({ to: 'under-way' }),
      move({ to: 'done', workDone: 'Remade' }),
    ]);
    await quiet();
    expect(disk.rows.map(({ state }) => state)).toEqual(['taken', 'refused']);
  });

  it('knows what it forgot on the disk, for a page that shows what was read before', async () => {
    const keeper = keeperOf(ILVO);
    const all = () => Promise.resolve(true);
    await keeper.enter(SUBJECT, [note('first')]);
    await quiet();
    await keeper.forget(all);
    expect(disk.rows).toEqual([]);
    expect(keeper.entries).toMatchObject([{ words: 'first', state: 'taken' }]);
    // Another tab sends and forgets the next, unseen here between the two.
    service.isReached = false;
    await keeper.enter(SUBJECT, [note('second')]);
    await quiet();
    disk.rows = [];
    await keeper.forget(all);
    expect(keeper.entries.map(({ words, state }) => [words, state])).toEqual([
      ['first', 'taken'],
      ['second', 'taken'],
    ]);
    expect(keeper.entries[1]?.takenAt).not.toBeNull();
  });

  it('no longer knows what was discarded', async () => {
    const keeper = keeperOf(ILVO);
    service.refusals = [[422, { detail: 'No.' }]];
    const { siteId, name } = SUBJECT;
    await keeper.enter({ siteId, name, ticketId: null, visitId: null }, [note('first')]);
    await quiet();
    await keeper.discard(keeper.entries[0]!, 'Discarded');
    await quiet();
    expect(keeper.entries).toEqual([]);
  });
});
