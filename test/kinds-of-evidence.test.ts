// Whatever people learn is evidence: it has a route, a place in a log, can be withdrawn, and moves the location at once.
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Client } from 'pg';

import { drawSite, row } from './support/draw-site.js';
import { ILVO, OFFICE, ReadingsDesk, SUPPLY, UNKNOWN } from './support/readings-desk.js';
import { FIRM_ID, type TestPerson } from './support/test-app.js';

interface Entered {
  id: string;
  /** Where it is listed, with `items`. */
  list: string;
  withdraw: string;
  /** Where the withdrawal is written down, and how it stands there. */
  log: string;
  logged: (log: { [list: string]: never[] }) => unknown;
  /** What the listed row says of a withdrawal. */
  withdrawn: (row: { [field: string]: unknown }) => unknown;
}

const SAID = { saidBy: ILVO };
const SEEN = {
  place: { kind: 'span', trunk: 'A', from: 'A1', to: 'A2' },
  part: 'junction-in',
  seen: 'sound',
};
const POINT = { trunk: 'A', node: 'A3', function: 'bell' };
/** Room 1 works, Rooms 2 and 3 are silent. */
const HEARD = [1, 2, 3].map((room) => {
  const outcome = room < 2 ? 'works' : 'fails';
  return { trunk: 'A', node: `A${room}`, function: 'announcement', outcome };
});

describe('every kind of evidence', () => {
  const desk = new ReadingsDesk();
  let siteId: string;
  /** Nothing is left of a kind when the next is tried. */
  let before: Awaited<ReturnType<typeof desk.locationOf>>;
  let ticketId: string;
  let visitId: string;
  /** Of a visit that is to no ticket. */
  let aloneId: string;

  const post = async (path: string, body: object, by: Pick<TestPerson, 'http'> = desk.technician) =>
    (await by.http.post(`/api/v1/${path}`).send(body).expect(201)).body;
  const get = async (path: string) =>
    (await desk.technician.http.get(`/api/v1/${path}`).expect(200)).body;

  const visitTo = async (ticketIds: string[]): Promise<string> => {
    const visit = { siteId, kind: 'call-out', on: '2026-03-02', purpose: 'Silence', ticketIds };
    const planned = { ...visit, upkeep: true, technicianId: desk.technician.id };
    const { id } = await post('visits', planned, desk.test);
    await post(`visits/${id}/moves`, { to: 'under-way', by: 'Ilvo Marsh' });
    return id;
  };

  beforeAll(async () => {
    await desk.start();
    const { trunk, nodes } = row('A', 3);
    const grouped = nodes.map((node, n) => ({ ...node, groups: n < 1 ? [] : ['upper floor'] }));
    siteId = await drawSite(desk.test, [{ trunk, nodes: grouped }], SUPPLY);
    desk.test.clock.tick(60);
    ticketId = await desk.reported(HEARD, siteId);
    visitId = await visitTo([ticketId]);
    aloneId = await visitTo([]);
    desk.test.clock.tick(1);
  });
  afterAll(desk.close);

  const onTicket = (what: 'reading' | 'look' | 'observation', id: string): Entered => ({
    id,
    list: `tickets/${ticketId}/${what}s`,
    withdraw: `tickets/${ticketId}/${what}s/${id}/withdraw`,
    log: `tickets/${ticketId}/log`,
    logged: ({ items }) => (items!.at(-1) as { details: object } | undefined)?.details,
    withdrawn: ({ withdrawal }) => withdrawal,
  });
  const onVisit = (
    what: 'reading' | 'look' | 'walk-test',
    id: string,
    visit = visitId,
  ): Entered => ({
    id,
    list: `visits/${visit}/${what}s`,
    withdraw: `visits/${visit}/${what}s/${id}/withdraw`,
    log: `visits/${visit}/log`,
    logged: ({ withdrawals }) => withdrawals!.at(-1),
    withdrawn: ({ withdrawal }) => withdrawal,
  });

  const look = async (seen: object, by = ILVO) =>
    (await post(`tickets/${ticketId}/looks`, { saidBy: by, ...seen }, desk.test)).items[0].id;
  const newest = async (path: string, before: readonly string[]): Promise<string> =>
    (await get(path)).items.find(({ id }: { id: string }) => !before.includes(id)).id;
  const idsIn = async (path: string) =>
    (await get(path)).items.map(({ id }: { id: string }) => id) as string[];

  const volts = {
    kind: 'supply-volts',
    trunk: 'A',
    node: 'A2',
    volts: 0.02,
    uncertaintyVolts: 0.05,
  };

  const KINDS: [string, () => Promise<Entered>][] = [
    ['a look of a technician', async () => onTicket('look', await look(SEEN))],
    [
      'a look of the office',
      async () =>
        onTicket(
          'look',
          await look(
            { place: { kind: 'head-end' }, part: 'amplifier', seen: 'faulty' },
            OFFICE.saidBy,
          ),
        ),
    ],
    [
      'an answer of the office',
      async () => {
        const list = `tickets/${ticketId}/looks`;
        const before = await idsIn(list);
        const answer = { ...OFFICE, question: 'microphone-on', answer: 'no' };
        await post(`tickets/${ticketId}/answers`, answer, desk.test);
        return onTicket('look', await newest(list, before));
      },
    ],
    [
      'a setting of a group',
      async () => {
        const place = { kind: 'head-end' };
        const group = { part: 'group-off', group: 'upper floor' };
        return onTicket('look', await look({ place, ...group, seen: 'faulty' }));
      },
    ],
    [
      'what came back with a cable disconnected',
      async () => {
        const list = `tickets/${ticketId}/observations`;
        const before = await idsIn(list);
        const heard = { ...POINT, node: 'A2', outcome: 'works', disconnectedBelow: 'A2' };
        const report = { ...SAID, how: 'gone-through', observations: [heard] };
        await post(`tickets/${ticketId}/reports`, report);
        return onTicket('observation', await newest(list, before));
      },
    ],
    [
      'what was heard on a walk test',
      async () => {
        const list = `tickets/${ticketId}/observations`;
        const before = await idsIn(list);
        const observations = [{ ...POINT, outcome: 'works' }];
        await post(`tickets/${ticketId}/walk-tests`, { ...SAID, observations });
        return onTicket('observation', await newest(list, before));
      },
    ],
    [
      'a reading',
      async () => {
        const list = `tickets/${ticketId}/readings`;
        const before = await idsIn(list);
        await post(`tickets/${ticketId}/readings`, { takenBy: ILVO, reading: volts });
        return onTicket('reading', await newest(list, before));
      },
    ],
    [
      'a reading on a visit',
      async () => {
        const read = { kind: 'supply-volts', trunk: 'A', node: 'A2', entered: '0.02' };
        const taken = { ...read, uncertainty: 0.05, takenBy: 'Ilvo Marsh' };
        return onVisit('reading', (await post(`visits/${visitId}/readings`, taken)).id);
      },
    ],
    [
      'a look on a visit',
      async () => {
        const { items } = await post(`visits/${visitId}/looks`, { ...SAID, ...SEEN });
        return onVisit('look', items[0].id);
      },
    ],
    [
      'a walk test on a visit',
      async () => {
        // Heard before anybody complained: what it proved is younger.
        const test = { testedBy: 'Ilvo Marsh', testedAt: '2026-03-01T00:00:00Z' };
        const observations = [1, 2].map((room) => ({
          ...POINT,
          node: `A${room}`,
          outcome: 'works',
        }));
        const sent = { ...test, observations };
        return onVisit('walk-test', (await post(`visits/${visitId}/walk-tests`, sent)).id);
      },
    ],
    [
      'work done near by',
      async () => {
        const rooms = [{ trunk: 'A', node: 'A1' }];
        const work = { ...OFFICE, rooms, on: '2026-02-20', byWhom: 'painters' };
        const { id } = await post(`sites/${siteId}/works-nearby`, work, desk.test);
        const list = `sites/${siteId}/works-nearby`;
        // Its list is its log.
        const logged = ({ items }: { [list: string]: { id: string }[] }) =>
          items!.find((one) => one.id === id);
        const withdrawn = (row: { [field: string]: unknown }) => row['withdrawnBecause'];
        return { id, list, withdraw: `${list}/${id}/withdraw`, log: list, logged, withdrawn };
      },
    ],
  ];

  it.each(KINDS)(
    '%s moves the location at once, is listed, and is taken back for good',
    async (_, enter) => {
      before ??= await desk.locationOf(ticketId);
      const places = before.result.places as unknown[];
      desk.test.clock.tick(1);
      const entered = await enter();
      const after = await desk.locationOf(ticketId);
      expect(after.result.places).not.toEqual(places);
      const row = async () =>
        (await get(entered.list)).items.find(({ id }: { id: string }) => id === entered.id);
      expect(entered.withdrawn(await row())).toBeNull();

      desk.test.clock.tick(1);
      const reason = 'It was the room next door';
      const withdraw = () =>
        desk.technician.http.post(`/api/v1/${entered.withdraw}`).send({ ...SAID, reason });
      const both = await Promise.all([withdraw(), withdraw()]);
      expect(both.map(({ status }) => status).sort()).toEqual([201, 409]);
      expect((await desk.locationOf(ticketId)).result).toEqual(before.result);
      expect(JSON.stringify(entered.withdrawn(await row()))).toContain(reason);
      const logged = JSON.stringify(entered.logged(await get(entered.log)));
      expect(logged).toContain(reason);
      expect(logged).toContain(entered.id);
    },
  );

  const ALONE = [
    [
      'reading',
      'readings',
      { kind: 'supply-volts', trunk: 'A', node: 'A2', entered: '0.02', takenBy: 'Ilvo Marsh' },
    ],
    ['look', 'looks', { ...SAID, ...SEEN }],
    [
      'walk-test',
      'walk-tests',
      { testedBy: 'Ilvo Marsh', observations: [{ ...POINT, outcome: 'works' }] },
    ],
  ] as const;

  it.each(ALONE)(
    'a %s on a visit to no ticket is taken back by the firm alone, once',
    async (what, path, sent) => {
      desk.test.clock.tick(1);
      const body = await post(`visits/${aloneId}/${path}`, sent);
      const id = (body.items?.[0] ?? body).id as string;
      const { body: site } = await desk.test.http.get(`/api/v1/sites/${siteId}`).expect(200);
      const client = await desk.test.addPerson('client', { clientId: site.clientId });
      const withdraw = (by: TestPerson, more: object = {}, on = aloneId) =>
        by.http
          .post(`/api/v1/visits/${on}/${path}/${id}/withdraw`)
          .send({ ...SAID, reason: 'The other school', ...more });
      await withdraw(client).expect(403);
      await withdraw(await desk.test.addStranger()).expect(404);
      await withdraw(desk.technician, {}, visitId).expect(404);
      await withdraw(desk.technician, {}, UNKNOWN).expect(404);
      const { errors } = (await withdraw(desk.technician, { reason: ' ' }).expect(422)).body;
      expect(errors).toMatchObject([{ field: '/reason' }]);
      const own = { id: `01900000-0000-7000-8000-0000000000${what.length}0` };
      const dispatcher = await desk.test.addPerson('dispatcher');
      const { body: entry } = await withdraw(dispatcher, own).expect(201);
      expect(entry).toMatchObject({ ...own, visitId: aloneId, what, withdrawnId: id });
      expect((await withdraw(dispatcher, own).expect(201)).body).toEqual(entry);
      const refused = (await withdraw(desk.technician).expect(409)).body;
      expect(refused).toMatchObject({ withdrawalId: own.id });
      const { withdrawals } = await get(`visits/${aloneId}/log`);
      expect(withdrawals.at(-1)).toEqual(entry);
    },
  );

  it('a walk test that was taken back ticks nothing off', async () => {
    const id = await visitTo([]);
    const { id: testId } = await post(`visits/${id}/walk-tests`, ALONE[2][2]);
    const heard = async () =>
      JSON.stringify(
        (await get(`visits/${id}/checklist`)).rooms ?? (await get(`visits/${id}/checklist`)),
      );
    const ticked = await heard();
    await post(`visits/${id}/walk-tests/${testId}/withdraw`, { ...SAID, reason: 'Another school' });
    expect(await heard()).not.toEqual(ticked);
  });

  it('the database lets nobody undo a withdrawal', async () => {
    const { id } = await post(`visits/${aloneId}/walk-tests`, ALONE[2][2]);
    const withdrawn = { ...SAID, reason: 'Another school' };
    const entry = await post(`visits/${aloneId}/walk-tests/${id}/withdraw`, withdrawn);
    const client = new Client({ connectionString: desk.test.appUrl });
    await client.connect();
    try {
      await client.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      for (const sql of [
        `UPDATE proven_points SET visit_withdrawal_id = NULL WHERE walk_test_id = '${id}'`,
        `UPDATE proven_points SET node = 'A1' WHERE walk_test_id = '${id}'`,
        `UPDATE looks SET visit_withdrawal_id = NULL WHERE visit_withdrawal_id IS NOT NULL`,
        `UPDATE readings SET visit_withdrawal_id = NULL WHERE visit_withdrawal_id IS NOT NULL`,
        `UPDATE visit_withdrawals SET reason = 'X' WHERE id = '${entry.id}'`,
        `DELETE FROM visit_withdrawals WHERE id = '${entry.id}'`,
      ])
        await expect(client.query(sql)).rejects.toThrow(/only grows/);
      const forget = `UPDATE visit_withdrawals SET said_by = 'Former person 1a2b3c4d' WHERE id = '${entry.id}'`;
      expect((await client.query(forget)).rowCount).toBe(1);
    } finally {
      await client.end();
    }
  });
});
