import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { row } from './support/draw-site.js';
import { ILVO, OFFICE, ReadingsDesk } from './support/readings-desk.js';
import type { TestPerson } from './support/test-app.js';

const said = (
  node: string,
  outcome: string,
  disconnectedBelow: string | null = null,
  trunk = 'A',
) => {
  return { trunk, node, function: 'announcement', outcome, disconnectedBelow };
};

describe('what was heard while a cable was disconnected', () => {
  const desk = new ReadingsDesk();
  const { locationOf, open, read, reported } = desk;

  beforeAll(desk.start);
  afterAll(desk.close);

  const report = (
    id: string,
    observations: object[],
    by: Pick<TestPerson, 'http'> = desk.technician,
    saidBy: object = ILVO,
  ) =>
    by.http
      .post(`/api/v1/tickets/${id}/reports`)
      .send({ saidBy, how: 'gone-through', observations });
  const all = (outcome: string) => row('A', 6).nodes.map(({ node }) => said(node, outcome));

  it('is kept with the node, said in the list, and no complaint', async () => {
    const id = await open();
    const before = await read(id);
    const told = [said('A1', 'works', 'A2'), said('A1', 'fails', 'A3'), said('A3', 'fails', 'A2')];
    const { body } = await report(id, told).expect(201);
    for (const field of ['trunks', 'stillToProve', 'saidToWork', 'askFirst'])
      expect(body[field]).toEqual(before[field]);
    const { items } = await read(id, '/observations');
    expect(items).toHaveLength(7);
    expect(items.filter((one: { saidBy: string }) => one.saidBy === 'Ilvo Marsh')).toEqual(
      expect.arrayContaining(told.map((one) => expect.objectContaining(one))),
    );
    // On no trunk is anything wrong by it: a report about B joins nothing that was only tried so.
    await report(id, [said('B1', 'fails', 'B1', 'B')]).expect(201);
    expect(await reported([said('B2', 'fails', null, 'B')])).not.toBe(id);
  });

  it('is refused by field: of another trunk, by the office, in a walk test, and where all else works', async () => {
    const id = await open();
    const errors = async (sent: ReturnType<typeof report>) => (await sent.expect(422)).body.errors;
    const field = '/observations/1/disconnectedBelow';
    expect(await errors(report(id, [said('A1', 'works'), said('A2', 'works', 'B1')]))).toEqual([
      { field, reason: 'there is no B1 on trunk A' },
    ]);
    const office = report(
      id,
      [said('A1', 'works'), said('A2', 'works', 'A3')],
      desk.test,
      OFFICE.saidBy,
    );
    expect(await errors(office)).toEqual([
      { field, reason: 'is for a technician, who opens terminals' },
    ]);
    // The same station twice is once with the trunk whole and once not; the same twice is refused.
    expect(
      await errors(report(id, [said('A1', 'works', 'A2'), said('A1', 'fails', 'A2')])),
    ).toMatchObject([{ field: '/observations/1' }]);
    const test = { saidBy: ILVO, observations: [said('A1', 'works'), said('A2', 'works', 'A3')] };
    const { body } = await desk.technician.http
      .post(`/api/v1/tickets/${id}/walk-tests`)
      .send(test)
      .expect(422);
    expect(body.errors).toEqual([
      { field, reason: 'belongs to a report: a walk test is made with the trunk whole' },
    ]);
    const { body: refused } = await desk.technician.http
      .post(`/api/v1/sites/${await desk.drawnSite({})}/reports`)
      .send({ saidBy: ILVO, how: 'gone-through', observations: [said('A1', 'fails', 'A2')] })
      .expect(422);
    expect(refused.errors).toEqual([
      {
        field: '/observations',
        reason: 'all of it works, and no ticket is open there that it could join',
      },
    ]);
    expect((await read(id, '/observations')).items).toHaveLength(4);
  });

  it('tells on which side a short lies', async () => {
    const site = await desk.drawnSite({});
    const id = await reported(
      all('fails').map((one) => ({ ...one, function: 'lamp' })),
      site,
    );
    const chanceBelow = async () => {
      const { result } = await locationOf(id);
      const shorts = result.troubles[0].causes.find(
        ({ cause }: { cause: { kind: string } }) => cause.kind === 'short',
      );
      return shorts as {
        probability: number;
        within: { place: { to?: string; node?: string }; probability: number }[];
      };
    };
    const before = await chanceBelow();
    await report(id, [
      { ...said('A1', 'works', 'A3'), function: 'lamp' },
      { ...said('A3', 'works', 'A3'), function: 'lamp' },
    ]).expect(201);
    const location = await locationOf(id);
    expect(location.observationsUsed).toHaveLength(8);
    const after = await chanceBelow();
    expect(after.probability).toBeGreaterThan(before.probability * 2);
    const beyond = (one: typeof after) =>
      one.within
        .filter(({ place }) => ['A4', 'A5', 'A6'].includes(place.to ?? place.node ?? ''))
        .reduce((sum, { probability }) => sum + probability, 0);
    expect(beyond(after)).toBeGreaterThan(0.9);
    expect(beyond(before)).toBeLessThan(0.7);
    const { items } = await read(id, '/observations');
    for (const one of items.filter(
      (each: { disconnectedBelow: string | null }) => each.disconnectedBelow !== null,
    ))
      await desk.technician.http
        .post(`/api/v1/tickets/${id}/observations/${one.id}/withdraw`)
        .send({ saidBy: ILVO, reason: 'It was another trunk' })
        .expect(201);
    expect(await chanceBelow()).toEqual(before);
  });
});
