import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { draw, drawSite, row } from './support/draw-site.js';
import { OFFICE } from './support/readings-desk.js';
import { buildTestApp, type TestApp } from './support/test-app.js';

const heard = (room: number, outcome: string, name = 'announcement') => {
  return { trunk: 'A', node: `A${room}`, function: name, outcome };
};

describe('what the record knows of units', () => {
  let test: TestApp;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
  });
  afterAll(() => test.close());

  const reported = async (third: object, observations: object[]) => {
    const siteId = await drawSite(test, [row('A', 4)]);
    const { trunk, nodes } = row('A', 4);
    const changed = nodes.map((node) => (node.node === 'A3' ? { ...node, ...third } : node));
    const trunks = [{ trunk, nodes: changed }];
    await draw(test, { siteId, version: 1, headEnd: {}, trunks });
    const report = { ...OFFICE, how: 'gone-through', observations };
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send(report)
      .expect(201);
    return body.tickets[0].id as string;
  };
  const read = async (id: string, path: string) =>
    (await test.http.get(`/api/v1/tickets/${id}/${path}`).expect(200)).body;
  const askedOf = ({ officeChecks, technicianChecks }: { [list: string]: { node: string }[] }) =>
    [...officeChecks!, ...technicianChecks!].map(({ node }) => node);
  const TOLD = [heard(2, 'works'), heard(3, 'fails'), heard(4, 'fails')];

  it('takes a silent room that is out for no evidence, says so, and asks nothing of it', async () => {
    const id = await reported({ isOut: true }, TOLD);
    const location = await read(id, 'location');
    const { items } = await read(id, 'observations');
    const out = items.filter(({ node }: { node: string }) => node === 'A3');
    expect(out).toHaveLength(1);
    expect(location.observationsLeftOut).toEqual([
      { id: out[0].id, reason: 'Room 3 is bridged over or taken out, the record says' },
    ]);
    expect(location.observationsUsed).toHaveLength(2);
    const predicted = location.result.predictions.map(({ node }: { node: string }) => node);
    expect(predicted).toContain('A2');
    expect(predicted).not.toContain('A3');
    const rooms = [...location.officeChecks, ...location.technicianChecks].filter(
      ({ kind, node }) => kind === 'function' && node === 'A3',
    );
    expect(rooms).toEqual([]);
    expect(askedOf(location).length).toBeGreaterThan(0);
    const walk = JSON.stringify(await read(id, 'walk'));
    expect(walk).not.toMatch(/(lamp|announcement) in Room 3/);

    const whole = await read(await reported({}, TOLD), 'location');
    expect(whole.observationsLeftOut).toEqual([]);
    expect(whole.result.logEvidence).not.toBe(location.result.logEvidence);
  });

  it('says on the ticket that a room reported is out, neither asks nor wants a proof of it, and closes', async () => {
    const id = await reported({ isOut: true }, [heard(3, 'fails'), heard(3, 'fails', 'bell')]);
    const ticket = (await test.http.get(`/api/v1/tickets/${id}`).expect(200)).body;
    const words = 'Room 3 is bridged over or taken out, the record says: nothing is asked of it';
    const out = { trunk: 'A', node: 'A3', isOut: true, words };
    expect(ticket.setAside).toEqual([
      { ...out, function: 'announcement' },
      { ...out, function: 'bell' },
    ]);
    expect(ticket).toMatchObject({ trunks: ['A'], askFirst: [], stillToProve: [] });
    const location = await read(id, 'location');
    expect(location.observationsUsed).toEqual([]);
    expect(askedOf(location)).not.toContain('A3');
    expect(JSON.stringify(await read(id, 'walk'))).not.toMatch(/Room 3/);
    const close = { ...OFFICE, to: 'closed' };
    await test.http.post(`/api/v1/tickets/${id}/moves`).send(close).expect(201);

    const whole = await reported({}, [heard(3, 'fails'), heard(3, 'fails', 'bell')]);
    const asked = (await test.http.get(`/api/v1/tickets/${whole}`).expect(200)).body;
    expect(asked.setAside).toEqual([]);
    expect(asked.askFirst.map(({ question }: { question: string }) => question)).toContain(
      'volume-up:A/A3',
    );
    expect(asked.stillToProve).toHaveLength(2);
    await test.http.post(`/api/v1/tickets/${whole}/moves`).send(close).expect(409);
  });

  it('says on the ticket what a unit was never fitted for', async () => {
    const id = await reported({ lacks: ['bell'] }, [heard(3, 'fails', 'bell'), heard(3, 'fails')]);
    const ticket = (await test.http.get(`/api/v1/tickets/${id}`).expect(200)).body;
    expect(ticket.setAside).toMatchObject([
      {
        function: 'bell',
        isOut: false,
        words:
          'the unit in Room 3 was never fitted for the bell, the record says: nothing is asked of it',
      },
    ]);
    expect(ticket.stillToProve).toMatchObject([{ function: 'announcement' }]);
  });

  it('asks no function of a unit that lacks it, and leaves out what is said of it', async () => {
    const id = await reported({ lacks: ['lamp', 'bell'] }, [...TOLD, heard(3, 'fails', 'bell')]);
    const location = await read(id, 'location');
    expect(location.observationsLeftOut).toEqual([
      { id: expect.any(String), reason: 'the unit in Room 3 was never fitted for the bell' },
    ]);
    expect(location.observationsUsed).toHaveLength(3);
    const { body: french } = await test.http
      .get(`/api/v1/tickets/${id}/location`)
      .set('Accept-Language', 'fr')
      .expect(200);
    expect(french.observationsLeftOut[0].reason).toMatch(/n’a pas cette fonction \(la sonnerie\)$/);
    const asked = [...location.officeChecks, ...location.technicianChecks].filter(
      ({ node, function: name }) => node === 'A3' && ['lamp', 'bell'].includes(name),
    );
    expect(asked).toEqual([]);
    expect(JSON.stringify(await read(id, 'walk'))).not.toMatch(/lamp in Room 3/);
  });

  it('knows groups: a group that is silent as one is switched off at the head-end', async () => {
    const { nodes } = row('A', 4);
    const siteId = await drawSite(test, [
      {
        trunk: 'A',
        nodes: nodes.map((node, n) => ({ ...node, groups: n === 1 || n === 2 ? ['ground'] : [] })),
      },
    ]);
    const observations = [
      heard(1, 'works'),
      heard(2, 'fails'),
      heard(3, 'fails'),
      heard(4, 'works'),
    ];
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({ ...OFFICE, how: 'gone-through', observations })
      .expect(201);
    const { result } = await read(body.tickets[0].id, 'location');
    expect(result.places[0].place).toEqual({ kind: 'head-end' });
    expect(JSON.stringify(result.places[0].components)).toContain(':ground');
  });

  it('goes by the largest groups of a record with more than the locator takes', async () => {
    const { nodes } = row('A', 6);
    const many = (at: number) => Array.from({ length: 19 }, (_, g) => `group ${at} ${g}`);
    const siteId = await drawSite(test, [
      { trunk: 'A', nodes: nodes.map((node, n) => ({ ...node, groups: [...many(n), 'zone'] })) },
    ]);
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({
        ...OFFICE,
        how: 'gone-through',
        observations: [2, 3, 4].map((n) => heard(n, 'fails')),
      })
      .expect(201);
    const { result } = await read(body.tickets[0].id, 'location');
    expect(JSON.stringify(result)).toContain(':zone');
    expect(JSON.stringify(result)).not.toContain(':group 5 18');
  });
});
