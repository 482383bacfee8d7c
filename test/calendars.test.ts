import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import ICAL from 'ical.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, PASSWORD, type TestApp, type TestPerson } from './support/test-app.js';

describe('calendars', () => {
  let test: TestApp;
  let ilvo: TestPerson;
  let site: string;
  let visit: { id: string; version: number };

  const post = async (path: string, body: object, status = 201) =>
    (await test.http.post(`/api/v1/${path}`).send(body).expect(status)).body;

  /** As somebody who is signed in: tokens make no links. */
  async function signedIn({ email }: TestPerson) {
    const http = test.browser();
    const { body } = await http.post('/api/v1/session').send({ email, password: PASSWORD });
    return (path: string, sent: object) =>
      http.post(`/api/v1/${path}`).set('X-CSRF-Token', body.csrfToken).send(sent);
  }

  const shown = (link: string) => test.browser().get(new URL(link).pathname + new URL(link).search);

  async function eventsOf(link: string): Promise<ICAL.Event[]> {
    const { text, headers } = await shown(link).expect(200);
    expect(headers['content-type']).toMatch(/^text\/calendar/);
    const calendar = new ICAL.Component(ICAL.parse(text) as [string, unknown[], unknown[]]);
    return calendar.getAllSubcomponents('vevent').map((event) => new ICAL.Event(event));
  }

  beforeAll(async () => {
    test = await buildTestApp();
    ilvo = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    site = await drawSite(test, [row('A', 2)]);
    visit = await post('visits', {
      siteId: site,
      kind: 'planned',
      on: '2026-03-04',
      purpose: 'Upkeep',
      upkeep: true,
      technicianId: ilvo.id,
    });
  });

  afterAll(() => test.close());

  it('show a technician’s visits, and what changes of them', async () => {
    const ask = await signedIn(ilvo);
    const { link, id, ...rest } = (await ask('calendars', {}).expect(201)).body;
    expect(rest).toMatchObject({ technicianId: ilvo.id, siteId: null, endedAt: null });
    const [event, ...others] = await eventsOf(link);
    expect(others).toEqual([]);
    expect(event!.uid).toBe(`${visit.id}@lastheard`);
    expect(event!.startDate.toString()).toBe('2026-03-04');
    expect(event!.summary).toBe('Larkfield Lower School: Upkeep');
    await test.http
      .patch(`/api/v1/visits/${visit.id}`)
      .set('If-Match', `"${visit.version}"`)
      .send({ on: '2026-03-05', reason: 'Exams' })
      .expect(200);
    const [moved] = await eventsOf(link);
    expect(moved!.uid).toBe(event!.uid);
    expect(moved!.sequence).toBeGreaterThan(event!.sequence);
    expect(moved!.startDate.toString()).toBe('2026-03-05');
    await test.http
      .patch(`/api/v1/visits/${visit.id}`)
      .set('If-Match', `"${visit.version + 1}"`)
      .send({ fromTime: '08:30', untilTime: '10:00', reason: 'Agreed with the office' })
      .expect(200);
    const [timed] = await eventsOf(link);
    expect(timed!.startDate.toJSDate().toISOString()).toBe('2026-03-05T08:30:00.000Z');
    expect(timed!.duration.toSeconds()).toBe(90 * 60);
    await ask(`calendars/${id}/end`, {}).expect(204);
    await shown(link).expect(410);
  });

  it('show what goes to a site, for the firm alone to make', async () => {
    const ask = await signedIn(await test.addPerson('dispatcher', { name: 'Wren Ashdown' }));
    const { link } = (await ask('calendars', { siteId: site }).expect(201)).body;
    expect(await eventsOf(link)).toHaveLength(1);
    const { errors } = (await ask('calendars', { siteId: site, technicianId: ilvo.id }).expect(422))
      .body;
    expect(errors).toMatchObject([{ field: '/siteId' }]);
    const technician = await signedIn(ilvo);
    await technician('calendars', { siteId: site }).expect(403);
    const sanna = await test.addPerson('technician');
    await technician('calendars', { technicianId: sanna.id }).expect(403);
    await ask('calendars', { technicianId: sanna.id }).expect(201);
    const mine = (await ilvo.http.get('/api/v1/calendars').expect(200)).body.items;
    expect(mine.map(({ technicianId }: { technicianId: string }) => technicianId)).toEqual([
      ilvo.id,
    ]);
    const all = (await test.http.get('/api/v1/calendars').expect(200)).body.items;
    expect(all).toHaveLength(3);
    // The newest first: nobody read by the link that the dispatcher made for Sanna.
    const [forSanna, forSite, own] = all;
    expect(forSanna).toMatchObject({ madeBy: 'Wren Ashdown', lastReadAt: null });
    expect(forSite).toMatchObject({ madeBy: 'Wren Ashdown' });
    expect(own).toMatchObject({ madeBy: 'Ilvo Marsh' });
    const readAt = async () =>
      ((await test.http.get('/api/v1/calendars')).body.items as { lastReadAt: string }[])[1]!
        .lastReadAt;
    const first = await readAt();
    expect(first).toBe(test.clock.now().toISOString());
    // A program that asks again at once writes nothing.
    test.clock.tick(9);
    await eventsOf(link);
    expect(await readAt()).toBe(first);
    test.clock.tick(1);
    await eventsOf(link);
    expect(await readAt()).toBe(test.clock.now().toISOString());
    const others = all.find(({ siteId }: { siteId: string | null }) => siteId === site);
    await technician(`calendars/${others.id}/end`, {}).expect(404);
    expect(await eventsOf(link)).toHaveLength(1);
  });

  it('end with the sign-in of whose visits they show; what a plan knew of somebody goes with the name', async () => {
    const owner = await signedIn(test.owner);
    for (const [how, ended] of [
      ['end', 204],
      ['anonymise', 204],
    ] as const) {
      const person = await test.addPerson('technician', { name: 'Tove Aske' });
      const { link } = (await owner('calendars', { technicianId: person.id }).expect(201)).body;
      await eventsOf(link);
      const put = test.http.put(`/api/v1/people/${person.id}/working-time`).set('If-Match', '"0"');
      await put.send({ hours: [], daysOff: ['2026-03-09'] }).expect(200);
      await owner(`accounts/${person.id}/${how}`, {}).expect(ended);
      await shown(link).expect(404);
      const { items } = (await test.http.get('/api/v1/working-times').expect(200)).body;
      const kept = items.find(({ personId }: { personId: string }) => personId === person.id);
      expect(kept.daysOff).toEqual(how === 'end' ? ['2026-03-09'] : []);
    }
  });

  it('are nobody’s without the secret, which no list tells', async () => {
    await test.browser().get('/api/v1/calendar?key=guessed').expect(404);
    await test.browser().get('/api/v1/calendar').expect(422);
    const { text } = await test.http.get('/api/v1/calendars').expect(200);
    expect(text).not.toContain('secret');
    await test.http.post('/api/v1/calendars').send({}).expect(403);
  });
});
