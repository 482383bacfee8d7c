import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { drawSite } from './support/draw-site.js';
import { buildTestApp, type TestApp } from './support/test-app.js';

const MARA = { name: 'Mara Quill', kind: 'office' };
const ROOMS = Array.from({ length: 20 }, (_, i) => String(101 + i));
const said = (node: string, name: string, outcome: string) => {
  return { trunk: 'A', node, function: name, outcome };
};
const everywhere = (outcome: string) => ROOMS.map((room) => said(room, 'announcement', outcome));

// What somebody who does this for a living reads and does about twenty rooms in a row: a table of situations posed by hand, through the API.
describe('a practitioner believes what is read and is to be done', () => {
  let test: TestApp;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
  });
  afterAll(() => test.close());

  const site = (more: (room: string) => object = () => ({})) => {
    const nodes = ROOMS.map((node) => {
      return { node, cableMetres: 9, room: `Room ${node}`, ...more(node) };
    });
    return drawSite(test, [{ trunk: 'A', nodes }]);
  };
  const report = async (siteId: string, observations: object[], saidBy = MARA): Promise<string> => {
    const { body } = await test.http
      .post(`/api/v1/sites/${siteId}/reports`)
      .send({ saidBy, how: 'gone-through', observations })
      .expect(201);
    return body.tickets[0].id;
  };
  const again = async (ticketId: string, outcome: string) => {
    test.clock.tick(60);
    const { body } = await test.http
      .post(`/api/v1/tickets/${ticketId}/reports`)
      .send({ saidBy: MARA, how: 'gone-through', observations: everywhere(outcome) })
      .expect(201);
    return body;
  };
  const read = async (ticketId: string) => {
    const of = async (what: string) =>
      (await test.http.get(`/api/v1/tickets/${ticketId}/${what}`).expect(200)).body;
    return { location: await of('location'), walk: await of('walk') };
  };
  const questions = (checks: { question: string | null }[]) => checks.map((one) => one.question);

  it('silent, heard after a reset, silent again: the head-end comes and goes, told once, and looked at while it is silent', async () => {
    const id = await report(await site(), everywhere('fails'));
    await again(id, 'works');
    const told = await again(id, 'fails');
    const { location, walk } = await read(id);
    expect(location.troubles).toHaveLength(1);
    expect(location.troubles[0].words).toMatch(
      /^announcements in Rooms 101 to 120: something that comes and goes: the head-end, 8\d %/,
    );
    const [headEnd] = location.troubles[0].causes;
    expect(
      headEnd.details
        .map(({ mode }: { mode: string }) => mode)
        .slice(0, 3)
        .sort(),
    ).toEqual(['amplifier', 'microphone', 'power']);
    expect(questions(location.officeChecks).slice(0, 2)).toEqual(['head-end-on', 'microphone-on']);
    expect(told.officeChecks ?? location.officeChecks).toEqual(location.officeChecks);
    expect(location.first.words).toContain('look whether the cabinet in the office is switched on');
    expect(walk.next.where.node).toBeNull();
  });

  it('the same while it is heard: nobody listens anywhere, the head-end is opened', async () => {
    const id = await report(await site(), everywhere('fails'));
    await again(id, 'works');
    await again(id, 'fails');
    await again(id, 'works');
    const { location, walk } = await read(id);
    expect(location.intermittent).toBeGreaterThan(0.9);
    expect([location.officeChecks, location.technicianChecks]).toEqual([[], []]);
    expect(location.first.words).toMatch(/go and look at the head-end/);
    expect(walk.next.kind).toBe('open');
    expect(walk.next.where.node).toBeNull();
    expect(walk.printed.join('\n')).not.toMatch(/Listen|Measure/);
  });

  it('Room 109 bridged over, and reported: said, and nothing asked of anybody', async () => {
    const id = await report(await site((room) => (room === '109' ? { isOut: true } : {})), [
      said('107', 'announcement', 'works'),
      said('109', 'announcement', 'fails'),
    ]);
    const { location, walk } = await read(id);
    expect(location.troubles).toEqual([]);
    expect(location.first).toMatchObject({ kind: 'nothing' });
    expect(location.first.words).toContain('Room 109 is bridged over or taken out');
    expect([location.officeChecks, location.technicianChecks]).toEqual([[], []]);
    expect(walk.next).toBeNull();
  });

  it('105 to 108 silent, all behind them heard: the plan on site says first how to settle the drawing', async () => {
    const observations = ROOMS.flatMap((room, i) =>
      ['announcement', 'bell'].map((name) =>
        said(room, name, i >= 4 && i <= 7 ? 'fails' : 'works'),
      ),
    );
    const { location, walk } = await read(await report(await site(), observations));
    expect(location.first.kind).toBe('drawing');
    expect(location.first.words).toMatch(/count the cables at Room (104|120)/);
    expect(walk.drawingFirst).toBe(location.first.words);
    expect(walk.printed[1]).toBe(walk.drawingFirst);
  });

  it('what was counted of cables settles it: as drawn it is asked no more, otherwise the record is wrong', async () => {
    const observations = ROOMS.flatMap((room, i) =>
      ['announcement', 'bell'].map((name) =>
        said(room, name, i >= 4 && i <= 7 ? 'fails' : 'works'),
      ),
    );
    const id = await report(await site(), observations);
    const count = async (node: string, ending: number) => {
      const step = { check: `cables ["A","${node}"]`, ending };
      const note = `Cables counted at ${node}: ${ending}`;
      await test.http
        .post(`/api/v1/tickets/${id}/notes`)
        .send({ saidBy: { name: 'Ilvo Marsh', kind: 'technician' }, note, step })
        .expect(201);
      return read(id);
    };
    type Doubt = { tellApart: { node?: string }; settled: string | null };
    const settledAt = (doubts: Doubt[], node: string) =>
      new Set(doubts.filter((one) => one.tellApart.node === node).map(({ settled }) => settled));
    const asDrawn = await count('120', 1);
    expect(settledAt(asDrawn.location.drawingDoubts, '120')).toEqual(new Set(['as-drawn']));
    expect(settledAt(asDrawn.location.drawingDoubts, '104')).toEqual(new Set([null]));
    expect(asDrawn.location.first.kind).not.toBe('drawing');
    expect(asDrawn.walk.drawingFirst).toBeNull();
    const wrong = await count('104', 3);
    expect(settledAt(wrong.location.drawingDoubts, '104')).toEqual(new Set(['otherwise']));
    expect(wrong.location.first.words).toBe(
      'First: have the record corrected at Room 104. Somebody looked, and it is not as drawn.',
    );
    expect(wrong.walk.drawingFirst).toBe(wrong.location.first.words);
    // Somebody else counts again: the last word counts.
    expect(settledAt((await count('104', 5)).location.drawingDoubts, '104')).toEqual(
      new Set(['neither']),
    );
  });

  it('bell silent in 109 only: its bell setting, nothing, and no places along the line that explain nothing', async () => {
    const id = await report(await site(), [
      said('108', 'bell', 'works'),
      said('109', 'announcement', 'works'),
      said('109', 'bell', 'fails'),
      said('110', 'bell', 'works'),
    ]);
    const { location, walk } = await read(id);
    const [trouble] = location.troubles;
    expect(trouble.causes.slice(0, 2).map(({ kind }: { kind: string }) => kind)).toEqual([
      'own-unit',
      'nothing',
    ]);
    expect(trouble.causes[0].details[0].mode).toBe('bell-setting');
    expect(trouble.words).not.toMatch(/head-end|Room 101/);
    expect(walk.drawingFirst).toBeNull();
  });

  it('announcement silent in 109 only, head-end on, volume up: its unit above 80 %, and its lamp is asked about', async () => {
    const id = await report(await site(), [
      said('108', 'announcement', 'works'),
      said('109', 'announcement', 'fails'),
      said('110', 'announcement', 'works'),
    ]);
    const looks = [
      { place: { kind: 'head-end' }, part: 'power', seen: 'sound' },
      { place: { kind: 'station', trunk: 'A', node: '109' }, part: 'volume-down', seen: 'sound' },
    ];
    await test.http.post(`/api/v1/tickets/${id}/looks`).send({ saidBy: MARA, looks }).expect(201);
    const { location, walk } = await read(id);
    expect(location.troubles[0].causes[0]).toMatchObject({ kind: 'own-unit' });
    expect(location.troubles[0].causes[0].percent).toBeGreaterThan(80);
    expect(location.officeChecks[0]).toMatchObject({ node: '109', function: 'lamp' });
    expect(walk.next.where.node).toBe('109');
  });

  it('bell heard everywhere, announcement nowhere: the microphone, asked of the office, and nobody along the line', async () => {
    const observations = ROOMS.flatMap((room) => [
      said(room, 'bell', 'works'),
      said(room, 'announcement', 'fails'),
    ]);
    const { location, walk } = await read(await report(await site(), observations));
    expect(location.troubles[0].causes[0]).toMatchObject({ kind: 'head-end', mode: 'microphone' });
    expect(questions(location.officeChecks)).toEqual(['microphone-on']);
    expect(location.technicianChecks).toEqual([]);
    expect(location.first.kind).toBe('office');
    expect(walk.printed.join('\n')).not.toMatch(/Room \d/);

    // Nothing is left to ask, and it is not said that nothing is wrong.
    const look = { place: { kind: 'head-end' }, part: 'microphone', seen: 'sound' };
    const path = `/api/v1/tickets/${location.ticketId}/looks`;
    await test.http
      .post(path)
      .send({ saidBy: MARA, looks: [look] })
      .expect(201);
    const { location: after } = await read(location.ticketId);
    expect(after.officeChecks).toEqual([]);
    expect(after.first).toMatchObject({ kind: 'place' });
    expect(after.first.words).toContain('go and look at the head-end');
  });

  it('one floor silent, which is a group: its setting, asked of the office first', async () => {
    const floors = (room: string) => ({ groups: [room < '111' ? 'first floor' : 'ground floor'] });
    const observations = ROOMS.map((room) =>
      said(room, 'announcement', room < '111' ? 'works' : 'fails'),
    );
    const { location } = await read(await report(await site(floors), observations));
    expect(location.troubles[0].causes[0].words).toContain('the group “ground floor” switched off');
    expect(questions(location.officeChecks)[0]).toBe('group-on:ground floor');
  });
});
