import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Client } from 'pg';

import { FirmTransaction } from '#app/database/firm-transaction.js';
import { JobService } from '#app/jobs/job.service.js';
import { seededRandom } from './electrical/seeded-random.js';
import { draw, drawSite, row } from './support/draw-site.js';
import { buildTestApp, FIRM_ID, type TestApp } from './support/test-app.js';

const OFFICE = { name: 'Mara Quill', kind: 'office' };
const TECHNICIAN = { name: 'Ilvo Marsh', kind: 'technician' };
const PLACES = [1, 2, 3, 4].flatMap((n) => [
  { place: { kind: 'station', trunk: 'A', node: `A${n}` }, component: 'station', mode: 'dead' },
  {
    place: { kind: 'span', trunk: 'A', from: n === 1 ? null : `A${n - 1}`, to: `A${n}` },
    component: 'junction-in',
    mode: 'parted',
  },
]);

/** What two ways of learning must agree in, to the last digit. */
const LEARNED = [
  `SELECT class_name, mode, learned_from, years::text, class_rate::text, shares::text, sites::text
   FROM learned_rates ORDER BY class_name, mode`,
  'SELECT learned::text FROM learned_errors',
];

interface OneSite {
  id: string;
  version: number;
}

describe('what a firm’s record teaches', () => {
  let test: TestApp;
  let owner: Client;
  const sites: OneSite[] = [];
  const open: { id: string; site: string }[] = [];
  const closed: { id: string; site: string }[] = [];
  const looks: string[] = [];
  /** What was named last on each ticket. */
  const found = new Map<string, { place: object; component: string; mode: string }>();
  const random = seededRandom(71);
  const one = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
    owner = new Client({ connectionString: test.ownerUrl });
    await owner.connect();
    await owner.query(`SELECT set_config('app.firm_id', $1, false)`, [FIRM_ID]);
    for (const stations of [4, 6]) {
      sites.push({ id: await drawSite(test, [row('A', stations)]), version: 1 });
    }
  });

  afterAll(async () => {
    await owner.end();
    await test.close();
  });

  async function post(path: string, body: object, status = 201) {
    test.clock.tick(1);
    const sent = test.http.post(`/api/v1/${path}`).send({ saidBy: TECHNICIAN, ...body });
    const { status: got, body: answer } = await sent;
    expect([got, got === status ? '' : answer]).toEqual([status, '']);
    return answer;
  }

  const heard = (outcome: string) => {
    return { trunk: 'A', node: `A${1 + Math.floor(random() * 4)}`, function: 'bell', outcome };
  };

  async function report(): Promise<void> {
    const { id: site } = one(sites);
    const observations = [heard('fails')];
    const body = { saidBy: OFFICE, how: 'volunteered', observations };
    const { tickets } = await post(`sites/${site}/reports`, body);
    if (!open.some(({ id }) => id === tickets[0].id)) open.push({ id: tickets[0].id, site });
  }

  async function find(): Promise<void> {
    const { id } = one(open);
    const { place, component, mode } = one(PLACES);
    const known: object = one([{ place, component, mode }, { place }, { note: 'Nothing' }]);
    await post(`tickets/${id}/findings`, known);
    if ('mode' in known) found.set(id, { place, component, mode });
  }

  async function look(): Promise<void> {
    const { id } = one(open);
    const { place, component } = one(PLACES);
    const part = component === 'station' ? 'unit' : component;
    const seen = { place, part, seen: one(['sound', 'faulty']) };
    const {
      items: [{ id: lookId }],
    } = await post(`tickets/${id}/looks`, seen);
    if (random() < 0.4)
      await post(`tickets/${id}/looks/${lookId}/withdraw`, { reason: 'Elsewhere' });
  }

  const mend = () => post(`tickets/${one(open).id}/mendings`, { mending: 'lasting', what: 'Anew' });

  async function close(): Promise<void> {
    const at = Math.floor(random() * open.length);
    const [ticket] = open.splice(at, 1);
    await post(`tickets/${ticket!.id}/moves`, { to: 'closed', reason: 'Done' });
    closed.push(ticket!);
  }

  async function takeUp(): Promise<void> {
    const [ticket] = closed.splice(Math.floor(random() * closed.length), 1);
    if (ticket === undefined) return;
    await post(`tickets/${ticket.id}/moves`, { to: 'reported', reason: 'Again' });
    open.push(ticket);
  }

  /** On a visit to a closed ticket: what was seen there, or that it was not so. */
  async function lookOnVisit(): Promise<void> {
    const last = looks.pop();
    if (last !== undefined) return void (await post(`${last}/withdraw`, { reason: 'Elsewhere' }));
    const ticket = closed.findLast(({ id }) => found.has(id));
    if (ticket === undefined) return;
    const visit = { siteId: ticket.site, kind: 'call-out', on: '2026-03-05', purpose: 'Again' };
    const { id } = await post('visits', { ...visit, saidBy: undefined, ticketIds: [ticket.id] });
    const { place, component } = found.get(ticket.id)!;
    const part = component === 'station' ? 'unit' : component;
    const seen = { place, part, seen: 'faulty', saidAt: '2026-03-01T08:00:00Z' };
    const {
      items: [{ id: lookId }],
    } = await post(`visits/${id}/looks`, seen);
    looks.push(`visits/${id}/looks/${lookId}`);
  }

  async function drawAnew(): Promise<void> {
    const site = one(sites);
    const { nodes } = row('A', 4 + Math.floor(random() * 3));
    const trunks = [
      {
        trunk: 'A',
        nodes: nodes.map((node) => ({ ...node, cableMetres: 5 + Math.floor(random() * 3) })),
      },
    ];
    await draw(test, { siteId: site.id, version: site.version, headEnd: {}, trunks });
    const { body } = await test.http.get(`/api/v1/sites/${site.id}`);
    site.version = body.asBuiltVersion;
  }

  async function learn(): Promise<void> {
    const jobs = test.app.get(JobService);
    await test.app
      .get(FirmTransaction)
      .run(FIRM_ID, 'write', () => jobs.enqueue('learned-rates', {}));
    // What else there is to do is not the subject.
    await owner.query(`DELETE FROM jobs.job WHERE name <> 'learned-rates' AND state = 'created'`);
    await jobs.settle();
  }

  async function learned(): Promise<string[]> {
    const texts: string[] = [];
    for (const sql of LEARNED)
      texts.push(...(await owner.query(sql)).rows.map((row) => JSON.stringify(row)));
    return texts;
  }

  /** Forgets every part, and learns all that there is. */
  async function learnAllAnew(): Promise<void> {
    for (const table of ['learned_tickets', 'learned_classes', 'learned_rates', 'learned_errors'])
      await owner.query(`DELETE FROM ${table}`);
    await owner.query(`INSERT INTO to_learn (id, site_id, ticket_id)
      SELECT gen_random_uuid(), site_id, id FROM tickets UNION ALL SELECT gen_random_uuid(), id, NULL FROM sites`);
    await learn();
  }

  it('learned bit by bit is what is learned of all at once, to the byte', async () => {
    const steps = [
      report,
      report,
      find,
      find,
      find,
      look,
      look,
      mend,
      mend,
      close,
      close,
      takeUp,
      lookOnVisit,
      drawAnew,
    ];
    let compared = 0;
    for (let round = 0; round < 3; round++) {
      for (let step = 0; step < 9; step++) {
        if (open.length === 0) await report();
        else await one(steps)();
      }
      if (round === 1) test.clock.tick(24 * 60);
      await learn();
      const bitByBit = await learned();
      await learnAllAnew();
      expect(await learned()).toEqual(bitByBit);
      if (bitByBit.length > 10) compared++;
    }
    expect(compared).toBeGreaterThan(1);
    expect(closed.length + open.length).toBeGreaterThan(3);
  });

  it('is learned again as far as it has changed: one class of one site, and nothing of the others', async () => {
    while (open.length > 0) await close();
    await learnAllAnew();
    await owner.query(`UPDATE learned_rates SET shares = '[]'`);
    await report();
    await post(`tickets/${open[0]!.id}/findings`, PLACES[0]!);
    await mend();
    await close();
    await learn();
    const { rows: rates } = await owner.query(
      `SELECT DISTINCT class_name FROM learned_rates WHERE shares <> '[]' ORDER BY 1`,
    );
    expect(rates).toEqual([{ class_name: 'station unknown' }]);
    const { rows: left } = await owner.query('SELECT id FROM to_learn');
    expect(left).toEqual([]);
  });
});
