import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { ILVO, ReadingsDesk } from './support/readings-desk.js';

const said = (node: string, outcome: string) => {
  return { trunk: 'A', node, function: 'announcement', outcome };
};

describe('what goes badly with the rest', () => {
  const desk = new ReadingsDesk();
  const { locationOf, open, read } = desk;

  beforeAll(desk.start);
  afterAll(desk.close);

  const report = (id: string, observations: object[]) =>
    desk.technician.http
      .post(`/api/v1/tickets/${id}/reports`)
      .send({ saidBy: ILVO, how: 'gone-through', observations })
      .expect(201);

  it('is told with both names where two people contradict each other, and only of the same time', async () => {
    const id = await open();
    expect((await locationOf(id)).contradictions).toEqual([]);
    await report(id, [said('A6', 'works'), said('A2', 'works'), said('A5', 'fails')]);
    const { contradictions } = await locationOf(id);
    const { items } = await read(id, '/observations');
    const idOf = (name: string, node: string) =>
      items.find(
        (one: { node: string; saidBy: string }) => one.node === node && one.saidBy === name,
      ).id as string;
    const [opposed, ...alone] = contradictions;
    expect(opposed).toMatchObject({
      trunk: 'A',
      node: 'A6',
      function: 'announcement',
      given: null,
    });
    const both = [
      { observationId: idOf('Mara Quill', 'A6'), saidBy: 'Mara Quill', outcome: 'fails' },
      { observationId: idOf('Ilvo Marsh', 'A6'), saidBy: 'Ilvo Marsh', outcome: 'works' },
    ];
    expect(opposed.said).toHaveLength(2);
    expect(opposed.said).toEqual(expect.arrayContaining(both));
    for (const { saidBy } of both) expect(opposed.words).toContain(saidBy);
    for (const { given, said: told, words } of alone) {
      expect(given).toBeLessThan(0.05);
      expect(words).toContain(told[0].saidBy);
    }

    // Said again an hour later, it is a change and no contradiction.
    const later = await open();
    desk.test.clock.tick(60);
    await report(later, [said('A6', 'works'), said('A5', 'fails')]);
    const location = await locationOf(later);
    expect(location.sittings).toBe(2);
    expect(location.contradictions).toEqual([]);
  });

  it('locates what somebody with the longest name that is taken says', async () => {
    const id = await open();
    // Each of these letters is two in lower case.
    const saidBy = { name: 'İ'.repeat(200), kind: 'office' };
    await desk.technician.http
      .post(`/api/v1/tickets/${id}/reports`)
      .send({ saidBy, how: 'gone-through', observations: [said('A2', 'works')] })
      .expect(201);
    expect((await locationOf(id)).places).not.toEqual([]);
  });
});
