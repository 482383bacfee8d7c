import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from 'uuidv7';
import { type EnteredOnSite } from '#app/locating/entered-on-site.js';
import { planOnKit, type PlannedKit, suspectedOnKit } from '#app/walks/plan-on-kit.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, type TestApp, type TestPerson } from './support/test-app.js';

const saidBy = { name: 'Ilvo Marsh', kind: 'technician' as const };
const heard = (node: string, outcome: 'works' | 'weak' | 'fails') => {
  return { trunk: 'A', node, function: 'announcement' as const, outcome };
};

describe('a page’s own plan', () => {
  let test: TestApp;
  let technician: TestPerson;
  let ticketId: string;
  let siteId: string;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    technician = await test.addPerson('technician', { name: saidBy.name });
    const supply = { supplyVolts: 24, supplyOhms: 0.5, stationAmps: 0.02, coreOhmsPerKm: 36 };
    siteId = await drawSite(test, [row('A', 6)], supply);
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({
        saidBy: { name: 'Mara Quill', kind: 'office' },
        how: 'volunteered',
        observations: [heard('A2', 'works'), heard('A5', 'fails')],
      })
      .expect(201);
    ticketId = body.tickets[0].id;
  });

  afterAll(() => test.close());

  const readKit = async (): Promise<PlannedKit & { workTimes: object }> =>
    (await technician.http.get(`/api/v1/tickets/${ticketId}/kit`).expect(200)).body;

  const AT = { trunk: 'A', node: 'A5' };
  const planned = (kit: PlannedKit, entered: EnteredOnSite[]) => {
    const plan = planOnKit({ kit, entered, from: AT, language: 'en' });
    const { isExact, expectedMinutes, nothingAtFault, next, parts } = plan;
    return JSON.parse(JSON.stringify({ isExact, expectedMinutes, nothingAtFault, next, parts }));
  };
  const byService = async () => {
    const { body } = await technician.http
      .get(`/api/v1/tickets/${ticketId}/walk?from=A5`)
      .expect(200);
    const { isExact, expectedMinutes, nothingAtFault, next, parts } = body;
    return { isExact, expectedMinutes, nothingAtFault, next, parts };
  };

  const placesOfService = async () => {
    const { body } = await technician.http.get(`/api/v1/tickets/${ticketId}/location`).expect(200);
    return body.result.places.map(({ place, probability }: Record<string, unknown>) => {
      return { place, probability };
    });
  };

  async function send({ id, happenedAt, route, body }: EnteredOnSite): Promise<void> {
    const at = route === 'readings' ? { takenAt: happenedAt } : { saidAt: happenedAt };
    await technician.http
      .post(`/api/v1/tickets/${ticketId}/${route}`)
      .send({ ...body, id, ...at })
      .expect(201);
  }

  const span = (to: number) => ({
    kind: 'span' as const,
    trunk: 'A',
    from: `A${to - 1}`,
    to: `A${to}`,
  });
  const entries: (Pick<EnteredOnSite, 'route'> & { body: object })[] = [
    {
      route: 'reports',
      body: { saidBy, how: 'gone-through', observations: [heard('A3', 'works')] },
    },
    {
      route: 'looks',
      body: { saidBy, place: span(5), part: 'junction-in', seen: 'sound' },
    },
    {
      route: 'looks',
      body: { saidBy, looks: [{ place: span(4), part: 'junction-out', seen: 'sound' }] },
    },
    {
      route: 'readings',
      body: {
        takenBy: saidBy,
        reading: {
          kind: 'supply-volts',
          trunk: 'A',
          node: 'A4',
          volts: 23.4,
          uncertaintyVolts: 0.2,
        },
      },
    },
    {
      route: 'notes',
      body: {
        saidBy,
        note: 'Measured what arrives at Room 5 IN: something is missing',
        step: { check: JSON.stringify(['arrival', 'A', 'A5', 'announcement']), ending: 1 },
      },
    },
    {
      route: 'reports',
      body: {
        saidBy,
        how: 'gone-through',
        observations: [{ ...heard('A4', 'works'), disconnectedBelow: 'A4' }],
      },
    },
  ];

  it('is the service’s to the last digit after each thing that is entered', async () => {
    const kit = await readKit();
    expect(planned(kit, [])).toEqual(await byService());
    const entered: EnteredOnSite[] = [];
    const seen = new Set<string>();
    for (const one of entries) {
      test.clock.tick(4);
      const happenedAt = test.clock.now().toISOString();
      const entry = { ...one, id: uuidv7(), happenedAt } as EnteredOnSite;
      entered.push(entry);
      await send(entry);
      const own = planned(kit, entered);
      expect(own).toEqual(await byService());
      expect(
        JSON.parse(JSON.stringify(suspectedOnKit({ kit, entered, language: 'en' }).places)),
      ).toEqual(await placesOfService());
      // A plan that moved: what was entered was gone by.
      const text = JSON.stringify(own.next);
      expect([one.route, seen.has(text)]).toEqual([one.route, false]);
      seen.add(text);
    }
    expect(planned(await readKit(), [])).toEqual(planned(kit, entered));
    // What was heard while the cable was off is no word about the trunk as it is used.
    const { said } = suspectedOnKit({ kit, entered, language: 'en' });
    expect(said.map(({ node, outcome }) => `${node} ${outcome}`).sort()).toEqual([
      'A2 works',
      'A3 works',
      'A5 fails',
    ]);
  });

  it('knows nothing of the time before a mending, as the service does', async () => {
    const kit = await readKit();
    test.clock.tick(10);
    const happenedAt = test.clock.now().toISOString();
    const id = uuidv7();
    const what = { mending: 'lasting', what: 'Terminals at Room 5 IN remade' };
    const mended = {
      id,
      happenedAt,
      route: 'mendings',
      body: { saidBy, ...what },
    } as EnteredOnSite;
    await send(mended);
    test.clock.tick(2);
    const fails: EnteredOnSite = {
      id: uuidv7(),
      happenedAt: test.clock.now().toISOString(),
      route: 'walk-tests',
      body: { saidBy, observations: [heard('A4', 'works'), heard('A5', 'fails')] },
    };
    await send(fails);
    const own = planned(kit, [mended, fails]);
    const service = await byService();
    expect(own.next.words).toBe(service.next.words);
    expect(own.next.words).toMatch(/Room [45]/);
  });

  it('goes on without a mending that is taken back, as the service does', async () => {
    test.clock.tick(5);
    const id = uuidv7();
    const mended = {
      ...{ id, happenedAt: test.clock.now().toISOString(), route: 'mendings' },
      body: { saidBy, mending: 'lasting', what: 'The wrong school' },
    } as EnteredOnSite;
    await send(mended);
    test.clock.tick(2);
    await send({
      ...{ id: uuidv7(), happenedAt: test.clock.now().toISOString(), route: 'walk-tests' },
      body: { saidBy, observations: [heard('A4', 'fails')] },
    });
    const kit = await readKit();
    const back = {
      ...{ id: uuidv7(), happenedAt: test.clock.now().toISOString() },
      ...{ route: 'mending-withdrawals', body: { saidBy } },
    } as EnteredOnSite;
    const own = planned(kit, [back]);
    expect(own).not.toEqual(planned(kit, []));
    await technician.http
      .post(`/api/v1/tickets/${ticketId}/mendings/${id}/withdraw`)
      .send({ saidBy, reason: 'It was the school next door' })
      .expect(201);
    const after = await readKit();
    expect(planned(after, []).next.words).toBe(own.next.words);
    expect((await byService()).next.words).toBe(own.next.words);
    const placesOf = (of: typeof kit, entered: EnteredOnSite[]) =>
      suspectedOnKit({ kit: of, entered, language: 'en' }).said;
    expect(placesOf(kit, [back])).toEqual(placesOf(after, []));
  });

  it('refuses what is no ending of a step, and keeps others’ kits apart', async () => {
    const note = { saidBy, note: 'Measured', step: { check: '', ending: -1 } };
    const { body } = await technician.http
      .post(`/api/v1/tickets/${ticketId}/notes`)
      .send(note)
      .expect(422);
    const fields = body.errors.map(({ field }: { field: string }) => field);
    expect(fields).toEqual(expect.arrayContaining(['/step/check', '/step/ending']));
    const stranger = await test.addStranger();
    await stranger.http.get(`/api/v1/tickets/${ticketId}/kit`).expect(404);
  });
});
