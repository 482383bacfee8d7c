import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Client } from 'pg';

import { draw, row } from './support/draw-site.js';
import { ILVO, OFFICE, ReadingsDesk, spanTo, SUPPLY, UNKNOWN } from './support/readings-desk.js';
import { FIRM_ID, type TestPerson } from './support/test-app.js';
import { statementsOf } from './support/count-statements.js';

const span = (from: string | null, to: string) => ({ kind: 'span', trunk: 'A', from, to });
const JOINT = { place: span('A4', 'A5'), part: 'junction-in' };
const SOUND = { ...JOINT, seen: 'sound' };
const POWER = { place: { kind: 'head-end' }, part: 'power' };

describe('looks on a ticket', () => {
  const desk = new ReadingsDesk();
  const { locationOf, merge, move, open, otherTicket, read } = desk;
  let client: TestPerson;

  beforeAll(async () => {
    await desk.start();
    const { body: site } = await desk.test.http.get(`/api/v1/sites/${desk.siteId}`).expect(200);
    client = await desk.test.addPerson('client', { clientId: site.clientId, name: 'Tessa Vole' });
  });
  afterAll(desk.close);

  const look = (id: string, more: object, by: Pick<TestPerson, 'http'> = desk.technician) =>
    by.http.post(`/api/v1/tickets/${id}/looks`).send({ saidBy: ILVO, ...more });
  const looked = async (id: string, more: object, by?: TestPerson): Promise<string> =>
    (await look(id, more, by).expect(201)).body.items[0].id;
  const withdraw = (id: string, lookId: string, by: TestPerson = desk.technician) =>
    by.http
      .post(`/api/v1/tickets/${id}/looks/${lookId}/withdraw`)
      .send({ saidBy: ILVO, reason: 'Looked at the wrong box' });
  const modes = (location: never, kind: string, node?: string) =>
    (
      location as {
        result: {
          places: {
            place: { kind: string; node?: string };
            components: { modes: Record<string, number> }[];
          }[];
        };
      }
    ).result.places.find(({ place }) => place.kind === kind && place.node === node)!.components[0]!
      .modes;
  const partOf = (location: never, to: string, part: string): number =>
    (
      location as {
        result: {
          places: {
            place: { to?: string };
            components: { component: string; modes: { ok: number } }[];
          }[];
        };
      }
    ).result.places
      .find(({ place }) => place.to === to)!
      .components.find(({ component }) => component === part)!.modes.ok;
  const errorsOf = async (id: string, more: object, by?: TestPerson) =>
    (await look(id, more, by).expect(422)).body.errors as { field: string; reason: string }[];

  it('move the place by one touch, are in list and log, and are the same computation as POST /locate', async () => {
    const id = await open();
    const before = await locationOf(id);
    const kept = await look(id, SOUND).expect(201);
    const [entered] = kept.body.items;
    expect(entered).toMatchObject({
      ...SOUND,
      id: entered.entryId,
      ticketId: id,
      visitId: null,
      group: null,
      saidBy: 'Ilvo Marsh',
      saidByKind: 'technician',
      lookedAt: desk.test.clock.now().toISOString(),
      period: 0,
      withdrawal: null,
    });
    expect((await read(id, '/looks')).items).toEqual(kept.body.items);
    expect((await read(id, '/log')).items.at(-1)).toMatchObject({
      id: entered.id,
      kind: 'look',
      saidBy: 'Ilvo Marsh',
      details: { looks: [{ ...SOUND, group: null }] },
    });
    const location = await locationOf(id);
    expect(location.looksUsed).toEqual([entered.id]);
    expect(spanTo(location, 'A5')).toBeLessThan(spanTo(before, 'A5'));
    expect(partOf(location as never, 'A5', 'junction-in')).toBeGreaterThan(
      partOf(before as never, 'A5', 'junction-in') + 0.05,
    );
    const { body: alone } = await desk.test.http.post('/api/v1/locate').send({
      trunks: [row('A', 6), row('B', 2)].map(({ trunk, nodes }) => ({
        id: trunk,
        nodes: nodes.map(({ node, cableMetres }) => ({ id: node, kind: 'station', cableMetres })),
      })),
      exposureDays: location.exposureDays,
      observations: [1, 2, 5, 6].map((room) => ({
        trunk: 'A',
        node: `A${room}`,
        function: 'announcement',
        outcome: room < 3 ? 'works' : 'fails',
        informant: { id: 'office mara quill', kind: 'office' },
      })),
      looks: [{ ...SOUND, informant: { kind: 'technician' } }],
    });
    expect(location.result.logEvidence).toBeCloseTo(alone.logEvidence, 9);
    expect(spanTo(location, 'A5')).toBeCloseTo(
      spanTo(alone.places ? { result: alone } : alone, 'A5'),
      9,
    );
  });

  it('found faulty name the place, and change the walk', async () => {
    const id = await open();
    const walk = await read(id, '/walk');
    await look(id, { ...JOINT, seen: 'faulty' }).expect(201);
    const location = await locationOf(id);
    expect(location.places[0].place).toEqual(JOINT.place);
    expect(location.places[0].probability).toBeGreaterThan(0.95);
    expect(partOf(location as never, 'A5', 'junction-in')).toBeLessThan(0.05);
    expect(await read(id, '/walk')).not.toEqual(walk);
  });

  it('come as a list, whole or not at all', async () => {
    const id = await open();
    const looks = [
      SOUND,
      { ...POWER, seen: 'sound' },
      { place: { kind: 'port', trunk: 'A' }, part: 'no-output', seen: 'sound' },
    ];
    const { body } = await look(id, { looks }).expect(201);
    expect(body.items.map(({ part }: { part: string }) => part)).toEqual([
      'junction-in',
      'power',
      'no-output',
    ]);
    expect((await read(id, '/log')).items.at(-1).details.looks).toHaveLength(3);
    expect((await locationOf(id)).looksUsed).toHaveLength(3);
    const wrong = [...looks, { ...POWER, part: 'lamp', seen: 'sound' }];
    expect(await errorsOf(id, { looks: wrong })).toEqual([
      {
        field: '/looks/3/part',
        reason: expect.stringMatching(/^a head-end has: power, amplifier/),
      },
    ]);
    expect(
      (await errorsOf(id, { looks: Array.from({ length: 220 }, () => SOUND) }))[0]!.field,
    ).toBe('/looks');
    expect(await errorsOf(id, { ...SOUND, looks })).toEqual([
      { field: '/looks', reason: 'is beside a look of its own: send one, or a list' },
    ]);
    expect((await errorsOf(id, {})).map(({ field }) => field)).toEqual([
      '/place',
      '/part',
      '/seen',
    ]);
    expect((await read(id, '/looks')).items).toHaveLength(3);
  });

  it('are refused with what cannot be, by field, and nothing is kept', async () => {
    const wrong = [
      [{ ...SOUND, part: 'speaker' }, '/part', 'a span has: junction-out, cable, junction-in'],
      [{ ...SOUND, place: span('A3', 'A5') }, '/place/from', 'A5 is fed from A4'],
      [{ ...SOUND, place: span('A8', 'A9') }, '/place/to', 'there is no A9 on trunk A'],
      [
        { ...SOUND, place: { kind: 'station', trunk: 'C', node: 'C1' }, part: 'unit' },
        '/place/trunk',
        'there is no trunk C on the drawing',
      ],
      [{ ...SOUND, place: { kind: 'cupboard' } }, '/place/kind', expect.any(String)],
      [{ ...SOUND, seen: 'rusty' }, '/seen', expect.any(String)],
      [
        { ...POWER, seen: 'sound', group: 'ground' },
        '/group',
        expect.stringMatching(/^belongs to: group-off/),
      ],
      [
        { ...POWER, part: 'group-off', seen: 'sound' },
        '/group',
        'is missing: group-off is set for each group of stations',
      ],
      [
        { ...POWER, part: 'group-off', seen: 'sound', group: 'attic' },
        '/group',
        'no station of the drawing is in the group attic',
      ],
      [{ ...SOUND, saidAt: '2027-01-01T00:00:00Z' }, '/saidAt', 'is in the future'],
      [{ ...SOUND, colour: 'red' }, '/colour', expect.any(String)],
    ] as const;
    const id = await open();
    for (const [sent, field, reason] of wrong)
      expect(await errorsOf(id, sent)).toEqual([{ field, reason }]);
    expect((await read(id, '/looks')).items).toEqual([]);
  });

  it('of the office are of what it can see without opening anything', async () => {
    const id = await open();
    const office = { saidBy: OFFICE.saidBy };
    const station = { kind: 'station', trunk: 'A', node: 'A5' };
    for (const part of ['unit', 'volume-down', 'announcement-setting'])
      await look(id, { ...office, place: station, part, seen: 'sound' }, desk.test).expect(201);
    await look(id, { ...POWER, ...office, seen: 'sound' }, desk.test).expect(201);
    const refused = [
      SOUND,
      { place: { kind: 'port', trunk: 'A' }, part: 'no-output', seen: 'sound' },
      { place: station, part: 'speaker', seen: 'sound' },
    ];
    for (const sent of refused)
      expect(await errorsOf(id, { ...sent, ...office }, desk.test as never)).toMatchObject([
        { field: '/part' },
      ]);
    // A client's person speaks as the office, whatever is sent.
    expect(await errorsOf(id, SOUND, client)).toMatchObject([{ field: '/part' }]);
    const { body } = await look(id, { ...POWER, seen: 'sound' }, client).expect(201);
    expect(body.items[0]).toMatchObject({ saidByKind: 'office' });
    // A technician may quote the office, and no other technician.
    const { body: quoted } = await look(id, { ...POWER, ...office, seen: 'sound' }).expect(201);
    expect(quoted.items[0]).toMatchObject({ saidBy: 'Mara Quill', saidByKind: 'office' });
    const other = { saidBy: { name: 'Osk Fell', kind: 'technician' } };
    const { body: own } = await look(id, { ...SOUND, ...other }).expect(201);
    expect(own.items[0]).toMatchObject({ saidBy: 'Ilvo Marsh', saidByKind: 'technician' });
  });

  it('come by a site’s pass as the office’s, of its own open tickets', async () => {
    const id = await open();
    const { body: pass } = await desk.test.http
      .post(`/api/v1/sites/${desk.siteId}/passes`)
      .send({})
      .expect(201);
    const browser = desk.test.browser();
    const { body: session } = await browser
      .post('/api/v1/pass/session')
      .send({ pass: pass.link.split('#')[1] })
      .expect(200);
    const send = (ticket: string, more: object) =>
      browser
        .post(`/api/v1/pass/tickets/${ticket}/looks`)
        .set('X-CSRF-Token', session.csrfToken)
        .send({ name: 'Mara Quill', ...more });
    const { body } = await send(id, { ...POWER, seen: 'sound' }).expect(201);
    expect(body).toMatchObject({ id, officeChecks: expect.any(Array) });
    expect((await read(id, '/looks')).items).toMatchObject([
      { saidBy: 'Mara Quill', saidByKind: 'office' },
    ]);
    expect((await send(id, SOUND).expect(422)).body.errors).toMatchObject([{ field: '/part' }]);
    const elsewhere = await open(await desk.drawnSite(SUPPLY));
    await send(elsewhere, { ...POWER, seen: 'sound' }).expect(404);
    await move(id, 'closed').expect(201);
    await send(id, { ...POWER, seen: 'sound' }).expect(404);
  });

  it('are what an answer of the office is, counted once', async () => {
    const answered = await open();
    const answer = (id: string, question: string, given: string) =>
      desk.test.http
        .post(`/api/v1/tickets/${id}/answers`)
        .send({ ...OFFICE, question, answer: given })
        .expect(201);
    await answer(answered, 'head-end-on', 'yes');
    const byAnswer = await locationOf(answered);
    const [kept] = (await read(answered, '/looks')).items;
    expect(kept).toMatchObject({ ...POWER, seen: 'sound', saidBy: 'Mara Quill' });
    expect(byAnswer.looksUsed).toEqual([kept.id]);
    // Said again, by an answer or a look, by the same person: still one.
    await look(answered, { ...POWER, saidBy: OFFICE.saidBy, seen: 'sound' }, desk.test).expect(201);
    const again = await locationOf(answered);
    expect(again.looksUsed).toHaveLength(1);
    expect(again.looksLeftOut).toEqual([
      { id: kept.id, reason: 'was looked at again by the same person' },
    ]);
    expect(again.result).toEqual(byAnswer.result);
    const seen = await open();
    await look(seen, { ...POWER, saidBy: OFFICE.saidBy, seen: 'sound' }, desk.test).expect(201);
    expect((await locationOf(seen)).result).toEqual(byAnswer.result);
    const asked = (location: { officeChecks: { question: string }[] }) =>
      location.officeChecks.map(({ question }) => question);
    expect(asked(again)).not.toContain('head-end-on');
    // Withdrawn, the question is open again.
    const { body } = await withdraw(seen, (await read(seen, '/looks')).items[0].id).expect(201);
    expect(body.askFirst[0]).toMatchObject({ question: 'head-end-on', answer: null });
    await answer(seen, 'head-end-on', 'no');
    expect((await read(seen)).askFirst[0].answer).toBe('no');
    const { body: taken } = await withdraw(seen, (await read(seen, '/looks')).items[1].id).expect(
      201,
    );
    expect(taken.askFirst[0].answer).toBeNull();
    const none = await locationOf(seen);
    // Nobody knew: no evidence, and not asked again.
    const unknown = await open();
    expect((await locationOf(unknown)).result).toEqual(none.result);
    await answer(unknown, 'head-end-on', 'unknown');
    const after = await locationOf(unknown);
    expect(after.result).toEqual(none.result);
    expect(asked(after)).not.toContain('head-end-on');
  });

  it('are what a finding is that names its part', async () => {
    const id = await open();
    const found = (more: object) =>
      desk.technician.http
        .post(`/api/v1/tickets/${id}/findings`)
        .send({ saidBy: ILVO, ...more })
        .expect(201);
    await found({ place: span('A4', 'A5') });
    expect((await read(id, '/looks')).items).toEqual([]);
    await found({ place: span('A4', 'A5'), component: 'junction-in', mode: 'open-speech' });
    expect((await read(id, '/looks')).items).toMatchObject([{ ...JOINT, seen: 'faulty' }]);
    const { places } = await locationOf(id);
    expect(places[0].place).toEqual(JOINT.place);
  });

  it('are withdrawn once: they stay, and nothing goes by them any more', async () => {
    const id = await open();
    const before = await locationOf(id);
    const lookId = await looked(id, SOUND);
    await withdraw(id, lookId, client).expect(403);
    await withdraw(id, lookId, await desk.test.addStranger()).expect(404);
    await withdraw(id, UNKNOWN).expect(404);
    const both = await Promise.all([withdraw(id, lookId), withdraw(id, lookId)]);
    expect(both.map(({ status }) => status).sort()).toEqual([201, 409]);
    const [kept] = (await read(id, '/looks')).items;
    expect(kept).toMatchObject({
      id: lookId,
      withdrawal: { reason: 'Looked at the wrong box', saidBy: 'Ilvo Marsh' },
    });
    expect((await read(id, '/log')).items.at(-1)).toMatchObject({
      kind: 'withdrawal',
      details: { lookIds: [lookId] },
    });
    const location = await locationOf(id);
    expect(location.result).toEqual(before.result);
    expect(location.looksLeftOut).toEqual([{ id: lookId, reason: 'was withdrawn' }]);
  });

  it('of one person the last of a part stands, of two people both', async () => {
    const id = await open();
    await looked(id, { ...JOINT, seen: 'faulty' });
    desk.test.clock.tick(1);
    await looked(id, SOUND);
    const one = await locationOf(id);
    expect(one.looksUsed).toHaveLength(1);
    const second = await desk.test.addPerson('technician', { name: 'Osk Fell' });
    await looked(id, SOUND, second);
    const two = await locationOf(id);
    expect(two.looksUsed).toHaveLength(2);
    expect(spanTo(two, 'A5')).toBeLessThan(spanTo(one, 'A5'));
  });

  it('sent again with the same id are one, also at once', async () => {
    const id = await open();
    const own = { ...SOUND, id: '01900000-0000-7000-8000-00000000c100' };
    const both = await Promise.all([look(id, own), look(id, own)]);
    expect(both.map(({ status }) => status)).toEqual([201, 201]);
    expect(both[0].body).toEqual(both[1].body);
    expect(both[0].body.items[0].id).toBe(own.id);
    await look(id, { ...own, seen: 'faulty' }).expect(409);
    expect((await read(id, '/looks')).items).toHaveLength(1);
  });

  it('end with a mending, and with a closing', async () => {
    const id = await open();
    const before = await looked(id, SOUND);
    await desk.technician.http
      .post(`/api/v1/tickets/${id}/mendings`)
      .send({ saidBy: ILVO, mending: 'lasting', what: 'Terminals remade' })
      .expect(201);
    desk.test.clock.tick(60);
    await desk.reported([{ trunk: 'A', node: 'A5', function: 'announcement', outcome: 'fails' }]);
    const after = await looked(id, SOUND);
    const location = await locationOf(id);
    expect(location.looksUsed).toEqual([after]);
    expect(location.looksLeftOut).toEqual([{ id: before, reason: 'is from before a mending' }]);
    await move(id, 'closed').expect(201);
    await look(id, SOUND).expect(409);
  });

  it('go along when a ticket is merged, and come back when that is undone', async () => {
    const one = await open();
    const other = await otherTicket();
    const lookId = await looked(one, SOUND);
    await merge(one, other);
    expect((await read(other, '/looks')).items.map(({ id }: { id: string }) => id)).toEqual([
      lookId,
    ]);
    expect((await locationOf(other)).looksUsed).toEqual([lookId]);
    expect((await look(one, SOUND).expect(409)).body.mergedInto).toBe(other);
    await move(one, 'reported').expect(201);
    expect((await read(one, '/looks')).items.map(({ id }: { id: string }) => id)).toEqual([lookId]);
    expect((await read(other, '/looks')).items).toEqual([]);
  });

  it('made on a visit count on its tickets just as those on a ticket', async () => {
    const direct = await open();
    await looked(direct, SOUND);
    const expected = (await locationOf(direct)).result;
    const id = await open();
    const { body: visit } = await desk.test.http
      .post('/api/v1/visits')
      .send({
        siteId: desk.siteId,
        kind: 'call-out',
        on: '2026-03-02',
        purpose: 'Silent rooms',
        ticketIds: [id],
      })
      .expect(201);
    const onVisit = (more: object) =>
      desk.technician.http.post(`/api/v1/visits/${visit.id}/looks`).send({ saidBy: ILVO, ...more });
    const { body } = await onVisit({ ...SOUND, id: '01900000-0000-7000-8000-00000000c101' }).expect(
      201,
    );
    expect(body.items).toMatchObject([{ visitId: visit.id, ticketId: null, period: null }]);
    const { body: listed } = await desk.technician.http
      .get(`/api/v1/visits/${visit.id}/looks`)
      .expect(200);
    expect(listed).toEqual({ items: body.items, next: null });
    const location = await locationOf(id);
    expect(location.looksUsed).toEqual([body.items[0].id]);
    expect(location.result).toEqual(expected);
    expect((await onVisit({ ...SOUND, part: 'unit' }).expect(422)).body.errors).toMatchObject([
      { field: '/part' },
    ]);
    await withdraw(id, body.items[0].id).expect(201);
    expect((await locationOf(id)).looksUsed).toEqual([]);
  });

  it('of a unit that is out, or of a part that is not on the ticket’s drawing, say nothing', async () => {
    const siteId = await desk.drawnSite(SUPPLY);
    const { trunk, nodes } = row('A', 7);
    const changed = nodes.map((node) => (node.node === 'A6' ? { ...node, isOut: true } : node));
    const id = await open(siteId);
    await draw(desk.test, {
      siteId,
      version: 1,
      headEnd: SUPPLY,
      trunks: [{ trunk, nodes: changed }],
    });
    const { body: visit } = await desk.test.http
      .post('/api/v1/visits')
      .send({
        siteId,
        kind: 'call-out',
        on: '2026-03-02',
        purpose: 'Silent rooms',
        ticketIds: [id],
      })
      .expect(201);
    const { body } = await desk.technician.http
      .post(`/api/v1/visits/${visit.id}/looks`)
      .send({ saidBy: ILVO, place: span('A6', 'A7'), part: 'cable', seen: 'faulty' })
      .expect(201);
    expect((await locationOf(id)).looksLeftOut).toEqual([
      { id: body.items[0].id, reason: 'is of a place that the ticket’s drawing does not have' },
    ]);
    const later = await open(siteId);
    const out = await looked(later, {
      place: { kind: 'station', trunk: 'A', node: 'A6' },
      part: 'unit',
      seen: 'faulty',
    });
    expect((await locationOf(later)).looksLeftOut).toEqual([
      { id: out, reason: 'is of a unit that is bridged over or taken out' },
    ]);
  });

  it('of a group’s setting are of that group', async () => {
    const siteId = await desk.drawnSite(SUPPLY);
    const { trunk, nodes } = row('A', 6);
    const grouped = nodes.map((node, n) => ({ ...node, groups: n > 3 ? ['annexe'] : ['ground'] }));
    await draw(desk.test, {
      siteId,
      version: 1,
      headEnd: SUPPLY,
      trunks: [{ trunk, nodes: grouped }],
    });
    const id = await open(siteId);
    const chance = async () =>
      modes((await locationOf(id)) as never, 'head-end')['group-off:annexe']!;
    const before = await chance();
    await looked(id, { ...POWER, part: 'group-off', group: 'annexe', seen: 'sound' });
    expect(await chance()).toBeLessThan(before / 5);
  });

  it('come with all else that a location goes by, in one statement', async () => {
    const id = await open();
    await looked(id, SOUND);
    const sent = await statementsOf(desk.test.app, () => locationOf(id));
    expect(sent.filter((text) => text.includes('looks'))).toHaveLength(1);
    expect(sent.length).toBeLessThanOrEqual(8);
  });

  it('are not changed or deleted, whoever asks the database, but for a name that is forgotten', async () => {
    const id = await open();
    const of = `WHERE id = '${await looked(id, SOUND)}'`;
    const database = new Client({ connectionString: desk.test.appUrl });
    await database.connect();
    try {
      await database.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
      for (const sql of [`UPDATE looks SET seen = 'faulty' ${of}`, `DELETE FROM looks ${of}`])
        await expect(database.query(sql)).rejects.toThrow(/only grows/);
      const forget = `UPDATE looks SET said_by = 'Former person 1a2b3c4d' ${of}`;
      expect((await database.query(forget)).rowCount).toBe(1);
    } finally {
      await database.end();
    }
  });
});
