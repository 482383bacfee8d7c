import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { drawSite, row } from './support/draw-site.js';
import { type Agent, buildTestApp, PASSWORD, type TestApp } from './support/test-app.js';

/** Somebody's browser, signed in. */
interface SignedIn {
  id: string;
  http: Agent;
  csrf: string;
}

const DONE = { to: 'done', by: 'X', workDone: 'All', confirmed: ['not-all-heard'] };

describe('who somebody is', () => {
  let test: TestApp;
  let firms = 0;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
  });

  afterAll(() => test.close());

  async function signIn({ id, email }: { id: string; email: string }): Promise<SignedIn> {
    const http = test.browser();
    const answer = await http.post('/api/v1/session').send({ email, password: PASSWORD });
    return { id, http, csrf: answer.body.csrfToken as string };
  }

  const post = ({ http, csrf }: SignedIn, path: string, body: object = {}) =>
    http.post(`/api/v1${path}`).set('X-CSRF-Token', csrf).send(body);

  const become = ({ http, csrf }: SignedIn, id: string, work: string, version = 1) =>
    http
      .patch(`/api/v1/people/${id}`)
      .set({ 'X-CSRF-Token': csrf, 'If-Match': `"${version}"` })
      .send({ work });

  async function twoOwners(): Promise<[SignedIn, SignedIn]> {
    const firmId = `01900000-0000-7000-8000-0000000001${String(firms++).padStart(2, '0')}`;
    await test.addFirm(firmId);
    const one = await signIn(await test.addPerson('owner', { firmId }));
    const two = await signIn(await test.addPerson('owner', { firmId }));
    return [one, two];
  }

  describe('the last owners', () => {
    const waysOut: Record<
      string,
      (who: SignedIn, whom: SignedIn) => PromiseLike<{ status: number }>
    > = {
      end: (who, whom) => post(who, `/accounts/${whom.id}/end`),
      demote: (who, whom) => become(who, whom.id, 'technician'),
      anonymise: (who, whom) => post(who, `/accounts/${whom.id}/anonymise`),
    };

    for (const [name, way] of Object.entries(waysOut)) {
      it(`leave one when they ${name} each other at once`, async () => {
        for (let time = 0; time < 5; time++) {
          const [one, two] = await twoOwners();
          const answers = await Promise.all([way(one, two), way(two, one)]);
          const done = answers.filter(({ status }) => status < 300);
          expect([name, time, done.length]).toEqual([name, time, 1]);
        }
      });
    }

    it('are those who can sign in: who has no password yet does not count', async () => {
      const [one, two] = await twoOwners();
      const invited = { name: 'Runa Feld', email: `runa-${firms}@firm.example`, role: 'owner' };
      await post(one, '/invitations', invited).expect(201);
      await post(one, `/accounts/${two.id}/end`).expect(204);
      await post(one, `/accounts/${one.id}/end`).expect(409);
      await become(one, one.id, 'dispatcher').expect(409);
      const { paths } = (await test.http.get('/api/openapi.json')).body;
      expect(paths['/api/v1/people/{id}'].patch.responses).toHaveProperty('409');
    });

    it('do not keep anybody else in', async () => {
      const [one] = await twoOwners();
      const { body } = await one.http.get('/api/v1/session');
      const technician = await test.addPerson('technician', { firmId: body.firmId });
      await post(one, `/accounts/${technician.id}/end`).expect(204);
    });
  });

  it('is not changed by a token', async () => {
    const technician = await test.addPerson('technician');
    const patch = (body: object, version: number) =>
      test.http.patch(`/api/v1/people/${technician.id}`).set('If-Match', `"${version}"`).send(body);
    await patch({ work: 'owner' }, 1).expect(403);
    await patch({ phone: '0555 0199', work: 'technician' }, 1).expect(200);
    const owner = await signIn(test.owner);
    await become(owner, technician.id, 'dispatcher', 2).expect(200);
  });

  it('has a name that is text', async () => {
    const create = (name: string) =>
      test.http.post('/api/v1/people').send({ name, work: 'technician' });
    const bad = [
      '   ',
      ' \u00a0\u3000',
      '\u200b\u200d',
      '\u3164',
      'Ilvo\u0007Marsh',
      'Ilvo\nMarsh',
      'Ilvo \u202eMarsh',
      '\u2066Ilvo',
      'Ilvo\u200f',
      'Ilvo\u2028Marsh',
    ];
    for (const name of bad) {
      const { status, body } = await create(name);
      expect([name, status, body.errors?.[0].field]).toEqual([name, 422, '/name']);
    }
    for (const name of ['Ilvo Marsh', "Siân O'Dowd-Çelik", 'दीपक', 'عمر', '山田', 'Ilvo 👩‍🔧']) {
      await create(name).expect(201);
    }
    await test.http.post('/api/v1/clients').send({ name: '\u202eschool' }).expect(422);
  });

  it('is what a repeat by id belongs to', async () => {
    const [one, two] = [await test.addPerson('dispatcher'), await test.addPerson('dispatcher')];
    const body = { id: '01930000-0000-7000-8000-00000000aa01', name: 'Fenmoor Schools' };
    const first = await one.http.post('/api/v1/clients').send(body).expect(201);
    expect((await one.http.post('/api/v1/clients').send(body).expect(201)).body).toEqual(
      first.body,
    );
    const other = await two.http.post('/api/v1/clients').send(body).expect(409);
    expect(JSON.stringify(other.body)).not.toContain('Fenmoor');
    const again = await signIn(one);
    await post(again, '/clients', body).expect(201);
  });

  describe('at work', () => {
    let site: string;
    let ticket: string;
    const OBSERVATIONS = [{ trunk: 'A', node: 'A2', function: 'bell', outcome: 'fails' }];
    const report = (name: string, kind: string) => ({
      saidBy: { name, kind },
      how: 'volunteered',
      observations: OBSERVATIONS,
    });

    beforeAll(async () => {
      site = await drawSite(test, [row('A', 3)]);
      const { body } = await test.http
        .post(`/api/v1/sites/${site}/reports`)
        .send(report('Mara Quill', 'office'))
        .expect(201);
      ticket = body.tickets[0].id;
    });

    const log = async () =>
      (await test.http.get(`/api/v1/tickets/${ticket}/log`).expect(200)).body.items as {
        saidBy: string;
        saidByKind: string;
      }[];

    it('takes any ticket of the firm, as a technician on call', async () => {
      const { http } = await test.addPerson('technician', { name: 'Ilvo Marsh' });
      const { body } = await http.get('/api/v1/tickets').expect(200);
      expect(body.items.map(({ id }: { id: string }) => id)).toContain(ticket);
      await http.get(`/api/v1/sites/${site}/as-built`).expect(200);
      const note = { saidBy: { name: 'Ilvo Marsh', kind: 'technician' }, note: 'On my way' };
      await http.post(`/api/v1/tickets/${ticket}/notes`).send(note).expect(201);
    });

    it('carries the own name of a technician, whatever was sent', async () => {
      const { http } = await test.addPerson('technician', { name: 'Ilvo Marsh' });
      const colleague = await test.addPerson('technician', { name: 'Tamsin Brook' });
      const said = { saidBy: { name: 'Tamsin Brook', kind: 'office' } };
      await http
        .post(`/api/v1/tickets/${ticket}/notes`)
        .send({ ...said, note: 'X' })
        .expect(201);
      expect((await log()).at(-1)).toMatchObject({
        saidBy: 'Ilvo Marsh',
        saidByKind: 'technician',
      });
      const visit = {
        siteId: site,
        kind: 'planned',
        on: '2026-03-09',
        purpose: 'Upkeep',
        upkeep: true,
        technicianId: colleague.id,
      };
      const { body: planned } = await test.http.post('/api/v1/visits').send(visit).expect(201);
      const off = { to: 'called-off', by: 'Tamsin Brook', reason: 'Rain' };
      await http.post(`/api/v1/visits/${planned.id}/moves`).send(off).expect(201);
      const { body } = await test.http.get(`/api/v1/visits/${planned.id}/log`).expect(200);
      expect(body.items.map(({ movedBy }: { movedBy: string }) => movedBy)).toEqual(['Ilvo Marsh']);
    });

    it('lets a technician quote the office, but no colleague', async () => {
      const { http } = await test.addPerson('technician', { name: 'Ilvo Marsh' });
      const path = `/api/v1/tickets/${ticket}/reports`;
      await http.post(path).send(report('Mara Quill', 'office')).expect(201);
      expect((await log()).at(-1)).toMatchObject({ saidBy: 'Mara Quill', saidByKind: 'office' });
      await http.post(path).send(report('Tamsin Brook', 'technician')).expect(201);
      expect((await log()).at(-1)).toMatchObject({
        saidBy: 'Ilvo Marsh',
        saidByKind: 'technician',
      });
    });

    it('speaks as the office, as a client’s person', async () => {
      const { body } = await test.http.get(`/api/v1/sites/${site}`).expect(200);
      const { clientId } = body;
      const { http } = await test.addPerson('client', { clientId, name: 'Mara Quill' });
      await http
        .post(`/api/v1/tickets/${ticket}/reports`)
        .send(report('Mara Quill', 'technician'))
        .expect(201);
      expect((await log()).at(-1)).toMatchObject({ saidBy: 'Mara Quill', saidByKind: 'office' });
    });

    it('lets those who plan name whom they write down', async () => {
      const { http } = await test.addPerson('dispatcher', { name: 'Orla Vane' });
      const note = { saidBy: { name: 'Ilvo Marsh', kind: 'technician' }, note: 'He rang' };
      await http.post(`/api/v1/tickets/${ticket}/notes`).send(note).expect(201);
      expect((await log()).at(-1)).toMatchObject({
        saidBy: 'Ilvo Marsh',
        saidByKind: 'technician',
      });
    });

    it('is signed for once, also by two at once, under the signer’s own name', async () => {
      const { http } = await test.addPerson('technician');
      const { body: record } = await test.http.get(`/api/v1/sites/${site}`).expect(200);
      const visit = { siteId: site, kind: 'planned', on: '2026-03-02', purpose: 'X', upkeep: true };
      const technicianId = (await test.addPerson('technician')).id;
      const planned = await test.http.post('/api/v1/visits').send({ ...visit, technicianId });
      const path = `/api/v1/visits/${planned.body.id}`;
      await http.post(`${path}/moves`).send({ to: 'under-way', by: 'X' }).expect(201);
      await http.post(`${path}/moves`).send(DONE).expect(201);
      const of = { clientId: record.clientId as string };
      const drawn = 'M20 150L60 40L90 160';
      const signers = [
        await signIn(await test.addPerson('client', { ...of, name: 'Mara Quill' })),
        await signIn(await test.addPerson('client', { ...of, name: 'Joss Tarn' })),
      ];
      const sign = (who: SignedIn) =>
        post(who, `/visits/${planned.body.id}/signatures`, { name: 'The head teacher', drawn });
      // On a page of the service one signs now.
      const early = { name: 'Mara Quill', signedAt: '2026-03-02T08:00:00Z' };
      const { body: wrong } = await post(
        signers[0]!,
        `/visits/${planned.body.id}/signatures`,
        early,
      ).expect(422);
      expect(wrong.errors[0].field).toBe('/signedAt');
      const answers = await Promise.all([...signers, ...signers, ...signers].map(sign));
      expect(answers.filter(({ status }) => status === 201)).toHaveLength(1);
      expect(answers.filter(({ status }) => status === 409)).toHaveLength(5);
      const { body } = await test.http.get(`${path}/signatures`).expect(200);
      expect(body.items).toHaveLength(1);
      expect(['Mara Quill', 'Joss Tarn']).toContain(body.items[0].name);
      expect(body.items[0]).toMatchObject({ takenBy: null, drawn });
      // What was drawn goes with the name.
      const owner = await signIn(test.owner);
      for (const { id } of signers) await post(owner, `/accounts/${id}/end`).expect(204);
      for (const { id } of signers) await post(owner, `/accounts/${id}/anonymise`);
      const { body: later } = await test.http.get(`${path}/signatures`).expect(200);
      expect(later.items[0]).toMatchObject({ drawn: null, visitVersion: 3 });
      expect(later.items[0].name).toMatch(/^Former person/);
    });

    it('may be signed for on the phone that a technician hands over, which is told', async () => {
      const technician = await signIn(await test.addPerson('technician', { name: 'Ilvo Marsh' }));
      const visit = { siteId: site, kind: 'planned', on: '2026-03-02', purpose: 'X', upkeep: true };
      const technicianId = technician.id;
      const planned = await test.http.post('/api/v1/visits').send({ ...visit, technicianId });
      const path = `/visits/${planned.body.id}`;
      const sign = (drawn: unknown = null) =>
        post(technician, `${path}/signatures`, { name: 'Mara Quill', drawn });
      await sign().expect(409);
      const other = await signIn(await test.addPerson('technician'));
      const take = () => post(other, `${path}/signatures`, { name: 'Mara Quill' });
      await take().expect(403);
      await post(technician, `${path}/moves`, { to: 'under-way', by: 'X' }).expect(201);
      await post(technician, `${path}/moves`, DONE).expect(201);
      const { body: refused } = await take().expect(403);
      expect(refused.detail).toBe('A technician takes the signature of their own visit.');
      const long = `M1 1${'L12 12'.repeat(2000)}`;
      for (const drawn of ['', 'M1 1', 'M0 0L601 5', '<svg/>', 7, [], long, long + long]) {
        const { body: wrong } = await sign(drawn).expect(422);
        expect(wrong.errors[0].field).toBe('/drawn');
      }
      const drawn = 'M0 0L600 200M300 7L301 8';
      const { body: of } = await test.http.get(`/api/v1${path}`).expect(200);
      const after = (ms: number) => new Date(Date.parse(of.startedAt) + ms).toISOString();
      const signedAt = (at: unknown) =>
        post(technician, `${path}/signatures`, { name: 'Mara Quill', drawn, signedAt: at });
      for (const [at, reason] of [
        [after(-11 * 60_000), 'is before the visit began'],
        [after(86_400_000), 'is in the future'],
        ['yesterday', 'must be'],
      ]) {
        const { body: wrong } = await signedAt(at).expect(422);
        expect(wrong.errors).toEqual([
          { field: '/signedAt', reason: expect.stringContaining(reason!) },
        ]);
      }
      // Sent later, from where there is a signal.
      const { body } = await signedAt(after(1)).expect(201);
      expect(body).toMatchObject({ name: 'Mara Quill', takenBy: 'Ilvo Marsh', drawn });
      expect(body.signedAt).toBe(after(1));
      const dispatcher = await signIn(await test.addPerson('dispatcher'));
      await post(dispatcher, `${path}/signatures`, { name: 'Mara Quill' }).expect(403);
    });
  });

  it('shows its tokens when the password changes, and ends them with it', async () => {
    const person = await signIn(await test.addPerson('dispatcher'));
    const made = await post(person, '/tokens', { name: 'Export', scopes: ['sites:read'] });
    const bearer = { Authorization: `Bearer ${made.body.token}` };
    const change = (currentPassword: string, newPassword: string, more: object = {}) =>
      person.http
        .put('/api/v1/password')
        .set('X-CSRF-Token', person.csrf)
        .send({ currentPassword, newPassword, ...more });
    const second = 'an otter under the jetty';
    const { body } = await change(PASSWORD, second).expect(200);
    const names = body.tokens.map(({ name }: { name: string }) => name);
    expect(names.sort()).toEqual(['Export', 'Test']);
    expect(JSON.stringify(body)).not.toContain(made.body.token);
    await test.browser().get('/api/v1/sites').set(bearer).expect(200);
    const ended = await change(second, 'a wren in the gutter pipe', { endTokens: true }).expect(
      200,
    );
    expect(ended.body.tokens).toEqual([]);
    await test.browser().get('/api/v1/sites').set(bearer).expect(401);
  });

  it('has fifty tokens at most for a person, whatever others have', async () => {
    const person = await signIn(await test.addPerson('dispatcher'));
    const make = () => post(person, '/tokens', { name: 'Export', scopes: ['sites:read'] });
    // One was made with the person.
    const made = [];
    for (let number = 2; number <= 50; number++) made.push((await make().expect(201)).body.id);
    for (let over = 0; over < 3; over++) {
      const { body } = await make().expect(409);
      expect(body.detail).toBe('50 tokens are the most that one person has; revoke one first.');
    }
    const { body } = await person.http.get('/api/v1/tokens').expect(200);
    expect(body.items).toHaveLength(50);
    await person.http
      .delete(`/api/v1/tokens/${made[0]}`)
      .set('X-CSRF-Token', person.csrf)
      .expect(204);
    await make().expect(201);
    await make().expect(409);
    const other = await signIn(await test.addPerson('dispatcher'));
    await post(other, '/tokens', { name: 'Export', scopes: ['sites:read'] }).expect(201);
  });
});
