import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, type TestApp, type TestPerson } from './support/test-app.js';

/** The Monday that the clock of the tests shows. */
const FROM = '2026-03-02';
const WEEK = [1, 2, 3, 4, 5].map((weekday) => ({ weekday, from: '08:00', until: '16:00' }));

interface Placed {
  siteId: string;
  on: string;
  technicianId: string;
  ordinal: number;
  sharesWay: boolean;
}

describe('the plan of a quarter', () => {
  let test: TestApp;
  let ilvo: TestPerson;
  let sanna: TestPerson;
  const sites: string[] = [];
  let owedBefore: Placed[] = [];

  const post = async (path: string, body: object, status = 201) =>
    (await test.http.post(`/api/v1/${path}`).send(body).expect(status)).body;
  const plan = async () => post(`plans/quarters/${FROM}`, {}, 200);
  const chosen = (placed: Placed[]) =>
    placed.map(({ siteId, on, technicianId }) => ({ siteId, on, technicianId }));
  const accept = (visits: object[], more: object = {}) =>
    test.http.post(`/api/v1/plans/quarters/${FROM}/acceptance`).send({ visits, ...more });
  const visitsOf = async (site: string) =>
    (await test.http.get(`/api/v1/visits?site=${site}`).expect(200)).body.items as object[];

  async function promise(site: string, coverage: object): Promise<void> {
    const { clientId } = (await test.http.get(`/api/v1/sites/${site}`).expect(200)).body;
    await post('contracts', {
      clientId,
      title: 'Care of the bells',
      siteIds: [site],
      from: '2026-01-01',
      until: '2027-01-01',
      kind: 'comprehensive',
      visitsPerYear: 4,
      feeMinor: 90_000,
      currency: 'EUR',
      promises: [],
      coverage: { windows: WEEK, ...coverage },
    });
  }

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    ilvo = await test.addPerson('technician', { name: 'Ilvo Marsh' });
    sanna = await test.addPerson('technician', { name: 'Sanna Threlk' });
    for (const latitude of [47.3, 47.31, 47.9]) {
      const site = await drawSite(test, [row('A', 2)]);
      const body = { latitude, longitude: -28.4 };
      await test.http.patch(`/api/v1/sites/${site}`).set('If-Match', '"1"').send(body).expect(200);
      sites.push(site);
    }
    await promise(sites[0]!, {});
    await promise(sites[1]!, {});
    // All of the second slot in the quarter but three days.
    await promise(sites[2]!, {
      closedDays: [{ name: 'Works', from: '2026-03-23', until: '2026-05-26' }],
    });
    await test.http
      .put(`/api/v1/people/${ilvo.id}/working-time`)
      .set('If-Match', '"0"')
      .send({ hours: WEEK, daysOff: ['2026-05-27'], startLatitude: 47.1, startLongitude: -28.4 })
      .expect(200);
  });

  afterAll(() => test.close());

  it('puts what is promised near its best day, on days that are open, one way for neighbours', async () => {
    const made = await plan();
    expect(made).toMatchObject({ from: FROM, until: '2026-06-01', left: [], isCutOff: false });
    expect(made.isProven).toBe(true);
    const placed = made.placed as Placed[];
    // Two of four slots of each of three sites lie in the quarter.
    expect(placed).toHaveLength(6);
    for (const { on, technicianId } of placed) {
      expect(new Date(`${on}T00:00:00Z`).getUTCDay() % 6).not.toBe(0);
      expect(technicianId).toBe(ilvo.id);
    }
    const ofSite = (site: string) => placed.filter(({ siteId }) => siteId === site);
    expect(ofSite(sites[0]!).map(({ on }) => on)).toEqual(ofSite(sites[1]!).map(({ on }) => on));
    expect(ofSite(sites[0]!).every(({ sharesWay }) => sharesWay)).toBe(true);
    const [, late] = ofSite(sites[2]!);
    // Closed until the 25th, and on the 27th nobody is there.
    expect(['2026-05-26', '2026-05-28', '2026-05-29']).toContain(late!.on);
    owedBefore = placed;
  });

  it('says at once what there is to plan, and answers a first plan in place of the best one', async () => {
    const { body } = await test.http.get(`/api/v1/plans/quarters/${FROM}`).expect(200);
    expect(body).toMatchObject({ from: FROM, until: '2026-06-01', isCutOff: false });
    const names = (visits: { siteId: string; ideal: string }[]) =>
      visits.map(({ siteId, ideal }) => `${ideal} ${siteId}`).sort();
    expect(names(body.visits)).toEqual(names(owedBefore as never));
    await ilvo.http.get(`/api/v1/plans/quarters/${FROM}`).expect(403);
    const quick = await post(`plans/quarters/${FROM}`, { isQuick: true }, 200);
    expect(quick.placed).toHaveLength(6);
    expect(quick.bound).toBeLessThanOrEqual(quick.cost);
    // What was closed on its best day could not be there; what is on it says nothing of the kind.
    const best = (ideal: string) => (ideal < FROM ? FROM : ideal);
    const away = quick.placed.filter(
      (one: Placed & { ideal: string }) => one.on !== best(one.ideal),
    );
    expect(away.length).toBeGreaterThan(0);
    for (const { idealExtraMinutes, idealConflicts } of away) {
      expect(idealExtraMinutes !== null || idealConflicts.length > 0).toBe(true);
    }
  });

  it('plans nothing twice, leaves planned hours alone, and says why something is left', async () => {
    const [first] = owedBefore;
    const own = { siteId: first!.siteId, technicianId: ilvo.id, on: first!.on };
    const { id, version } = await post('visits', {
      ...own,
      kind: 'planned',
      purpose: 'Upkeep',
      upkeep: true,
      fromTime: '08:00',
      untilTime: '15:00',
    });
    const made = await plan();
    const placed = made.placed as Placed[];
    expect(placed).toHaveLength(5);
    expect(placed.map(({ on }) => on)).not.toContain(first!.on);
    // Nobody works long enough then, beside what is planned.
    const crowdedOut = made.placed.filter(
      ({ ideal }: { ideal: string }) => (ideal < FROM ? FROM : ideal) === first!.on,
    );
    expect(crowdedOut.length).toBeGreaterThan(0);
    for (const { idealConflicts } of crowdedOut) expect(idealConflicts).toEqual([['hours']]);
    await test.http
      .post(`/api/v1/visits/${id}/moves`)
      .send({ to: 'called-off', by: 'Test', reason: 'Not now' })
      .expect(201);
    expect(version).toBe(1);
    const time = { hours: [], startLatitude: null, startLongitude: null };
    await test.http
      .put(`/api/v1/people/${ilvo.id}/working-time`)
      .set('If-Match', '"1"')
      .send(time)
      .expect(200);
    const alone = await plan();
    expect(alone.placed).toEqual([]);
    expect(alone.left.map(({ why }: { why: string }) => why)).toEqual(
      Array(6).fill('nobody-there'),
    );
    await test.http
      .put(`/api/v1/people/${ilvo.id}/working-time`)
      .set('If-Match', '"2"')
      .send({ hours: WEEK, startLatitude: 47.1, startLongitude: -28.4 })
      .expect(200);
  });

  it('is accepted whole or not at all, once, by who may plan', async () => {
    const placed = (await plan()).placed as Placed[];
    const visits = chosen(placed);
    const asIlvo = ilvo.http.post(`/api/v1/plans/quarters/${FROM}/acceptance`);
    await asIlvo.send({ visits }).expect(403);
    const wrong = async (change: object) => {
      const sent = visits.map((one, index) => (index === 2 ? { ...one, ...change } : one));
      const { body } = await accept(sent).expect(422);
      return body.errors.map(({ field }: { field: string }) => field);
    };
    expect(await wrong({ on: '2026-06-01' })).toEqual(['/visits/2/on']);
    // A Sunday is outside the agreed hours: asked about.
    expect(await wrong({ on: '2026-03-08' })).toEqual(['/visits/2/on']);
    expect(await wrong({ technicianId: sites[0] })).toEqual(['/visits/2/technicianId']);
    for (const site of sites) {
      const planned = (await visitsOf(site)) as { state: string }[];
      expect(planned.filter(({ state }) => state === 'planned')).toEqual([]);
    }
    const both = await Promise.all([accept(visits), accept(visits)]);
    expect(both.map(({ status }) => status).sort()).toEqual([201, 409]);
    expect(both.find(({ status }) => status === 201)!.body.visitIds).toHaveLength(6);
    expect((await plan()).placed).toEqual([]);
    await accept(visits).expect(409);
    let planned = 0;
    for (const site of sites) {
      planned += ((await visitsOf(site)) as { state: string }[]).filter(
        ({ state }) => state === 'planned',
      ).length;
    }
    expect(planned).toBe(6);
  });

  it('may be changed before it is accepted', async () => {
    const site = await drawSite(test, [row('A', 2)]);
    await promise(site, {});
    const [first] = (await plan()).placed as Placed[];
    const moved = { siteId: first!.siteId, on: '2026-03-10', technicianId: sanna.id };
    const { body } = await accept([moved]).expect(201);
    const { body: visit } = await test.http.get(`/api/v1/visits/${body.visitIds[0]}`).expect(200);
    expect(visit).toMatchObject({ ...moved, upkeep: true, kind: 'planned' });
  });

  it('keeps to what people want of visits, and names what conflicts where that cannot all be', async () => {
    const site = await drawSite(test, [row('A', 2)]);
    await promise(site, {});
    const times = `/api/v1/people/${sanna.id}/working-time`;
    const works = { hours: WEEK, skills: ['tower'], startLatitude: 47.1, startLongitude: -28.4 };
    await test.http.put(times).set('If-Match', '"0"').send(works).expect(200);
    const ask = async (wishes: object[], status = 200) =>
      post(`plans/quarters/${FROM}`, { wishes }, status);
    const owedBy = ({ placed, left }: { placed: Owed[]; left: Owed[] }) =>
      [...placed, ...left].filter(({ siteId }) => siteId === site);
    const [first] = owedBy(await ask([]));
    const visit = ({ contractId, siteId, year, ordinal }: Owed) => {
      return { contractId, siteId, year, ordinal };
    };
    const wanted = async (wish: object) => {
      const told = await ask([{ ...visit(first!), ...wish }]);
      const isFirst = ({ contractId, ordinal }: Owed) =>
        contractId === first!.contractId && ordinal === first!.ordinal;
      return [...told.placed, ...told.left].find(isFirst);
    };
    expect(await wanted({ skills: ['tower'] })).toMatchObject({ technicianId: sanna.id });
    expect(await wanted({ pinnedTo: ilvo.id, on: '2026-03-17' })).toMatchObject({
      technicianId: ilvo.id,
      on: '2026-03-17',
    });
    expect(await wanted({ on: '2026-03-17', notBy: [ilvo.id] })).toMatchObject({
      technicianId: sanna.id,
      on: '2026-03-17',
    });
    expect((await wanted({ notOn: [first!.on] })).on).not.toBe(first!.on);
    expect(await wanted({ isLeft: true })).toMatchObject({ why: 'said-so', conflicts: [] });
    // Ilvo cannot climb the tower: either he does not go, or the skill is not wanted.
    expect(await wanted({ skills: ['tower'], pinnedTo: ilvo.id })).toMatchObject({
      why: 'wishes',
      conflicts: [['pinnedTo'], ['skills']],
    });
    // A Sunday: the contract and all hours stand against it, and giving up the day alone is enough.
    expect((await wanted({ on: '2026-03-15' })).conflicts).toEqual([['on']]);
    // Two visits on one day with one technician, whose day is too short for both.
    const short = { ...works, hours: WEEK.map((hours) => ({ ...hours, until: '11:30' })) };
    await test.http.put(times).set('If-Match', '"1"').send(short).expect(200);
    const beside = await drawSite(test, [row('A', 2)]);
    await promise(beside, {});
    const [other] = (await ask([])).placed.filter(({ siteId }: Owed) => siteId === beside);
    const pin = { pinnedTo: sanna.id, on: '2026-03-17' };
    const told = await ask([first!, other as Owed].map((one) => ({ ...visit(one), ...pin })));
    const [left] = told.left;
    expect(told.left).toHaveLength(1);
    expect(left).toMatchObject({
      why: 'no-room',
      conflicts: [['room'], ['on'], ['pinnedTo'], ['hours']],
    });
  });

  it('keeps what two dispatchers want, shows it to both, and lets neither put away what the other wants unseen', async () => {
    const bea = await test.addPerson('dispatcher', { name: 'Bea Orne' });
    const wren = await test.addPerson('dispatcher', { name: 'Wren Ashdown' });
    const owed = async (who: TestPerson = bea) =>
      (await who.http.get(`/api/v1/plans/quarters/${FROM}`).expect(200)).body;
    const [first, second] = (await owed()).visits as Owed[];
    const visit = ({ contractId, siteId, year, ordinal }: Owed) => {
      return { contractId, siteId, year, ordinal };
    };
    const want = (who: TestPerson, version: number, wish: object) =>
      who.http
        .put(`/api/v1/plans/quarters/${FROM}/wishes`)
        .set('If-Match', `"${version}"`)
        .send(wish);
    // Twice at once of one visit: one is kept, the other is told; of two visits both are.
    const left = { ...visit(first!), isLeft: true, reason: 'Works in the yard' };
    const moved = { ...visit(first!), on: '2026-03-18', reason: 'The caretaker is there' };
    const both = await Promise.all([want(bea, 0, left), want(wren, 0, moved)]);
    expect(both.map(({ status }) => status).sort()).toEqual([200, 412]);
    const atOnce = await Promise.all([
      want(bea, 0, { ...visit(second!), pinnedTo: sanna.id, reason: 'Has the keys' }),
      want(wren, 1, moved),
    ]);
    expect(atOnce.map(({ status }) => status)).toEqual([200, 200]);
    const again = await Promise.all([want(bea, 2, left), want(wren, 2, moved)]);
    expect(again.map(({ status }) => status).sort()).toEqual([200, 412]);
    await want(wren, 1, moved).expect(412);
    await want(wren, 3, moved).expect(200);
    for (const who of [bea, wren]) {
      const { wishes } = await owed(who);
      expect(wishes).toHaveLength(2);
      expect(wishes).toContainEqual({
        ...moved,
        ...{ notOn: [], pinnedTo: null, notBy: [], skills: [], isLeft: false },
        ...{ changedBy: 'Wren Ashdown', changedAt: test.clock.now().toISOString(), version: 4 },
      });
      expect(wishes).toContainEqual(
        expect.objectContaining({ changedBy: 'Bea Orne', pinnedTo: sanna.id, version: 1 }),
      );
    }
    // A plan goes by what is kept, unless it is asked otherwise.
    const on = async (body: object) => {
      const { placed, left: others } = await post(`plans/quarters/${FROM}`, body, 200);
      const isFirst = ({ contractId, ordinal }: Owed) =>
        contractId === first!.contractId && ordinal === first!.ordinal;
      return [...placed, ...others].find(isFirst).on;
    };
    expect(await on({})).toBe('2026-03-18');
    expect(await on({ wishes: [] })).not.toBe('2026-03-18');
    // Taken back, and refused as a plan would.
    await want(bea, 4, visit(first!)).expect(200);
    expect(await on({})).not.toBe('2026-03-18');
    const wrong = await want(bea, 5, { ...moved, on: '2026-06-01' }).expect(422);
    expect(wrong.body.errors).toMatchObject([{ field: '/on' }]);
    const nobodys = await want(bea, 0, { ...moved, ordinal: 90 }).expect(422);
    expect(nobodys.body.errors).toMatchObject([{ field: '/ordinal' }]);
    await want(ilvo, 5, moved).expect(403);
    const unread = bea.http.put(`/api/v1/plans/quarters/${FROM}/wishes`);
    await unread.send(moved).expect(428);
    await want(bea, 1, visit(second!)).expect(200);
  });

  it('refuses wishes that are no one’s, or that contradict themselves', async () => {
    const told = await plan();
    const [owed] = [...told.placed, ...told.left] as Owed[];
    const { contractId, siteId, year, ordinal } = owed!;
    const visit = { contractId, siteId, year, ordinal };
    const refused = async (...wishes: object[]) => {
      const body = await post(`plans/quarters/${FROM}`, { wishes }, 422);
      return body.errors.map(({ field }: { field: string }) => field);
    };
    expect(await refused({ ...visit, ordinal: 90 })).toEqual(['/wishes/0/ordinal']);
    expect(await refused(visit, visit)).toEqual(['/wishes/1']);
    expect(await refused({ ...visit, pinnedTo: siteId })).toEqual(['/wishes/0/pinnedTo']);
    expect(await refused({ ...visit, pinnedTo: ilvo.id, notBy: [ilvo.id] })).toEqual([
      '/wishes/0/pinnedTo',
    ]);
    expect(await refused({ ...visit, on: '2026-06-01' })).toEqual(['/wishes/0/on']);
    expect(await refused({ ...visit, on: '2026-03-17', notOn: ['2026-03-17'] })).toEqual([
      '/wishes/0/on',
    ]);
    expect(await refused({ ...visit, on: 'soon' })).toEqual(['/wishes/0/on']);
    await post(`plans/quarters/${FROM}`, { wishes: Array(201).fill(visit) }, 422);
    await ilvo.http
      .post(`/api/v1/plans/quarters/${FROM}`)
      .send({ wishes: [visit] })
      .expect(403);
  });

  it('keeps what is wanted of an accepted visit, and why, for the plan of its day', async () => {
    const told = await plan();
    const [owed] = told.placed as Placed[];
    const { siteId, on, technicianId } = owed!;
    const wanted = { skills: ['tower'], pinnedTo: technicianId, reason: 'Has the keys' };
    const stranger = await accept([{ siteId, on, technicianId, pinnedTo: siteId }]).expect(422);
    expect(stranger.body.errors[0].field).toBe('/visits/0/pinnedTo');
    const { body } = await accept([{ siteId, on, technicianId, ...wanted }]).expect(201);
    const { body: wish } = await test.http
      .get(`/api/v1/plans/jobs/${body.visitIds[0]}/wish`)
      .expect(200);
    expect(wish).toMatchObject({ ...wanted, version: 1 });
    // Days that were moved by hand are asked about as those of single visits, all at once: a public holiday, a Sunday.
    const [other] = (await plan()).placed as Placed[];
    const further = await drawSite(test, [row('A', 2)]);
    await promise(further, { publicHolidays: { country: 'DE', region: null } });
    const moved = [
      { siteId: further, on: '2026-04-03', technicianId },
      { siteId: other!.siteId, on: '2026-03-08', technicianId },
    ];
    const held = await accept(moved).expect(422);
    expect(held.body.confirm).toEqual(['outside-hours']);
    expect(held.body.errors).toMatchObject([
      { field: '/visits/0/on', reason: 'is a public holiday there (Good Friday)' },
      { field: '/visits/1/on', reason: 'is a day of the week without agreed hours' },
    ]);
    expect(await visitsOf(further)).toEqual([]);
    const meant = await accept(moved, { confirmed: ['outside-hours'] }).expect(201);
    expect(meant.body.visitIds).toHaveLength(2);
    // A plan that begins in the past: which visit is asked about is told.
    const past = await post('plans/quarters/2026-02-23', {}, 200);
    const [begun] = past.placed as Placed[];
    const gone = [{ siteId: begun!.siteId, on: '2026-02-24', technicianId }];
    const asked = await test.http
      .post('/api/v1/plans/quarters/2026-02-23/acceptance')
      .send({ visits: gone })
      .expect(409);
    expect(asked.body).toMatchObject({
      confirm: ['in-the-past'],
      errors: [{ field: '/visits/0/on' }],
    });
  });
});

interface Owed {
  contractId: string;
  siteId: string;
  year: number;
  ordinal: number;
  on: string;
}
