import { afterAll, beforeAll, describe, expect, it, jest } from '@jest/globals';
import pg from 'pg';

import { ChangeListenerRepository } from '#app/changes/change-listener.repository.js';
import { ChangeService } from '#app/changes/change.service.js';
import { createAdapter } from '#app/create-app.js';
import { createJsonLog } from '#app/observability/json-log.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, PASSWORD, type TestApp } from './support/test-app.js';

const LISTENERS = 200;

/** Somebody's stream of events, as far as it was read. */
class Listening {
  private text = '';

  private constructor(
    private readonly reader: ReadableStreamDefaultReader<Uint8Array>,
    private readonly leaving: AbortController,
  ) {}

  static async open(url: string, headers: Record<string, string>): Promise<Listening> {
    const leaving = new AbortController();
    const response = await fetch(url, {
      headers: { accept: 'text/event-stream', ...headers },
      signal: leaving.signal,
    });
    expect(response.status).toBe(200);
    expect(response.headers.get('content-type')).toBe('text/event-stream; charset=utf-8');
    expect(response.headers.get('cache-control')).toBe('no-store');
    return new Listening(response.body!.getReader(), leaving);
  }

  /** Reads on until the pattern is there. */
  async until(pattern: RegExp): Promise<RegExpExecArray> {
    for (;;) {
      const found = pattern.exec(this.text);
      if (found !== null) return found;
      const { value, done } = await this.reader.read();
      if (done) throw new Error(`It ended after: ${this.text}`);
      this.text += Buffer.from(value).toString();
    }
  }

  get heard(): string {
    return this.text;
  }

  leave(): void {
    this.leaving.abort();
  }
}

describe('what changes', () => {
  let test: TestApp;
  let url: string;
  let siteId: string;
  let outside: pg.Client;
  const warnings: string[] = [];

  beforeAll(async () => {
    const log = createJsonLog('warn', { write: (line) => warnings.push(line) });
    test = await buildTestApp({ adapter: createAdapter({ log }) });
    await test.app.listen(0, '127.0.0.1');
    url = `${(await test.app.getUrl()).replace('localhost', '127.0.0.1')}/api/v1/changes`;
    siteId = await drawSite(test, [row('A', 5)]);
    outside = new pg.Client({ connectionString: test.appUrl });
    await outside.connect();
  });

  afterAll(async () => {
    await outside?.end();
    await test?.close();
  });

  async function signIn(email: string): Promise<Record<string, string>> {
    const { headers } = await test
      .browser()
      .post('/api/v1/session')
      .send({ email, password: PASSWORD })
      .expect(200);
    const cookies = headers['set-cookie'] as unknown as string[];
    return { cookie: cookies.map((one) => one.split(';')[0]).join('; ') };
  }

  async function report(node: string): Promise<string> {
    const saidBy = { name: 'Mara Quill', kind: 'office' };
    const observations = [{ trunk: 'A', node, function: 'bell', outcome: 'fails' }];
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({ saidBy, how: 'gone-through', observations })
      .expect(201);
    return body.tickets[0].id as string;
  }

  async function connections(): Promise<{ all: number; listening: number }> {
    const { rows } = await outside.query<{ all: number; listening: number }>(
      `SELECT count(*)::integer AS all,
         (count(*) FILTER (WHERE application_name = 'lastheard changes'))::integer AS listening
       FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid()`,
    );
    return rows[0]!;
  }

  const changeOf = (id: string) => new RegExp(`id: (\\S+)\\nevent: change\\ndata: [^\\n]*${id}`);

  it(`is told to ${LISTENERS} at once over one connection, to nobody of another firm`, async () => {
    const { email } = await test.addPerson('dispatcher');
    const stranger = await test.addStranger();
    const [mine, theirs] = [await signIn(email), await signIn(stranger.email)];
    const first = await Listening.open(url, mine);
    const before = await connections();
    expect(before.listening).toBe(1);
    const others = await Promise.all(
      Array.from({ length: LISTENERS - 1 }, () => Listening.open(url, mine)),
    );
    const abroad = await Listening.open(url, theirs);
    expect((await connections()).listening).toBe(1);
    expect((await connections()).all).toBeLessThanOrEqual(before.all + 10);
    const ticketId = await report('A3');
    for (const one of [first, ...others]) await one.until(changeOf(ticketId));
    // A change of their own comes after it, so that what was not told them is not only late.
    await stranger.http.get('/api/v1/sites').expect(200);
    await outside.query(`SELECT pg_notify('lastheard_changes', $1)`, [
      JSON.stringify({
        firmId: '01900000-0000-7000-8000-0000000000fe',
        kind: 'site',
        id: 'theirs',
      }),
    ]);
    await abroad.until(/theirs/);
    expect(abroad.heard).not.toContain(ticketId);
    for (const one of [first, ...others, abroad]) one.leave();
  });

  it('is told from where somebody was, or that it is not known any more', async () => {
    const headers = await signIn(test.owner.email);
    const first = await Listening.open(url, headers);
    const [, heard] = await first.until(changeOf(await report('A2')));
    first.leave();
    const missed = await report('A4');
    // The listener has heard of it once somebody was told.
    const other = await Listening.open(url, headers);
    const later = await report('A5');
    await other.until(changeOf(later));
    other.leave();
    const again = await Listening.open(url, { ...headers, 'last-event-id': heard! });
    await again.until(changeOf(missed));
    expect(again.heard).not.toContain('missed\n');
    again.leave();
    const unknown = await Listening.open(url, { ...headers, 'last-event-id': 'long-ago-7' });
    await unknown.until(/event: missed/);
    unknown.leave();

    const { body } = await test.http.get('/api/v1/changes').expect(200);
    expect(body).toMatchObject({ items: [], isWhole: false });
    const { body: since } = await test.http.get(`/api/v1/changes?after=${heard}`).expect(200);
    expect(since.isWhole).toBe(true);
    expect(since.items).toContainEqual({ kind: 'ticket', id: missed });
  });

  it('goes on after the connection was lost, and says that something may be missing', async () => {
    const listening = await Listening.open(url, await signIn(test.owner.email));
    await outside.query(
      `SELECT pg_terminate_backend(pid) FROM pg_stat_activity
       WHERE datname = current_database() AND application_name = 'lastheard changes'`,
    );
    await listening.until(/event: missed/);
    while ((await connections()).listening === 0) await new Promise(setImmediate);
    await listening.until(changeOf(await report('A1')));
    listening.leave();
  });

  it('forgets who leaves, however soon', async () => {
    const headers = { accept: 'text/event-stream', ...(await signIn(test.owner.email)) };
    for (let i = 0; i < 30; i++) {
      const leaving = new AbortController();
      const asked = fetch(url, { headers, signal: leaving.signal }).catch(() => undefined);
      await new Promise((resolve) => setTimeout(resolve, i));
      leaving.abort();
      await asked;
    }
    const service = test.app.get(ChangeService);
    // The test's own time-out ends what never comes.
    while (service.listening > 0) await new Promise((resolve) => setTimeout(resolve, 10));
    expect(service.listening).toBe(0);
  });

  it('is for people of the firm', async () => {
    const { body: site } = await test.http.get(`/api/v1/sites/${siteId}`).expect(200);
    const client = await test.addPerson('client', { clientId: site.clientId });
    await client.http.get('/api/v1/changes').expect(403);
    await test.browser().get('/api/v1/changes').expect(401);
  });

  it('is answered once, and nothing warns of it', async () => {
    const headers = await signIn(test.owner.email);
    const listening = await Listening.open(url, headers);
    await listening.until(changeOf(await report('A3')));
    listening.leave();
    await test.http.get('/api/v1/changes').expect(200);
    expect(warnings.filter((line) => line.includes('already sent'))).toEqual([]);
  });

  it('is refused to whoever comes while the app stops, however early they asked', async () => {
    const headers = { accept: 'text/event-stream', ...(await signIn(test.owner.email)) };
    let hear = (): void => undefined;
    let asked = (): void => undefined;
    const isAsked = new Promise<void>((resolve) => (asked = resolve));
    const begin = jest
      .spyOn(test.app.get(ChangeListenerRepository), 'begin')
      .mockImplementation(() => {
        asked();
        return new Promise((resolve) => (hear = resolve));
      });
    const early = fetch(url, { headers });
    await isAsked;
    const service = test.app.get(ChangeService);
    service.beforeApplicationShutdown();
    hear();
    const { status, headers: sent } = await early;
    expect([status, sent.get('retry-after')]).toEqual([503, '30']);
    expect((await fetch(url, { headers })).status).toBe(503);
    expect(service.listening).toBe(0);
    expect(warnings.filter((line) => line.includes('already sent'))).toEqual([]);
    begin.mockRestore();
  });
});
