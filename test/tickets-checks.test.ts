import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, type TestApp } from './support/test-app.js';

const OFFICE = { name: 'Mara Quill', kind: 'office' };
const TECHNICIAN = { name: 'Ilvo Marsh', kind: 'technician' };

const heard = (node: string, outcome: string, name = 'announcement') => ({
  trunk: node.charAt(0),
  node,
  function: name,
  outcome,
});

interface Check {
  words: string;
  kind: string;
  node: string | null;
  function: string | null;
  question: string | null;
  informationBits: number;
  minutes: number;
  bitsPerMinute: number;
}

interface Place {
  place: { kind: string; node?: string };
  probability: number;
  components: { component: string; modes: Record<string, number> }[];
}

describe('what is worth checking on a ticket', () => {
  let test: TestApp;
  let siteId: string;

  beforeAll(async () => {
    test = await buildTestApp({ jobsRest: true });
  });

  beforeEach(async () => {
    siteId = await drawSite(test, [row('A', 10), row('B', 3)]);
  });

  afterAll(() => test.close());

  const post = (path: string, body: object) =>
    test.http.post(`/api/v1${path}`).send(body).expect(201);

  async function report(observations: object[], more: object = {}) {
    const body = { saidBy: OFFICE, how: 'gone-through', observations, ...more };
    return (await post(`/sites/${siteId}/reports`, body)).body.tickets[0];
  }

  async function locate(id: string) {
    return (await test.http.get(`/api/v1/tickets/${id}/location`).expect(200)).body;
  }

  async function answer(id: string, question: string, given: string) {
    await post(`/tickets/${id}/answers`, { saidBy: OFFICE, question, answer: given });
  }

  const placeOf = (location: { result: { places: Place[] } }, kind: string, node?: string) =>
    location.result.places.find((one) => one.place.kind === kind && one.place.node === node)!;

  const odds = (chance: number) => chance / (1 - chance);

  const pointOf = ({ node, function: name }: Check) => `${node} ${name}`;

  it('and who contradicts whom, with both names, to whoever reports', async () => {
    const first = await report([heard('A7', 'works'), heard('A8', 'fails')]);
    expect(first.contradictions).toEqual([]);
    const other = { saidBy: { name: 'Tem Sorrel', kind: 'office' } };
    const second = await report([heard('A8', 'works')], other);
    expect(second.id).toBe(first.id);
    expect(second.contradictions).toHaveLength(1);
    const { words, node, room, said, given } = second.contradictions[0];
    expect({ node, room, given }).toEqual({ node: 'A8', room: 'Room 8', given: null });
    expect(said).toEqual([
      expect.objectContaining({ saidBy: OFFICE.name, outcome: 'fails' }),
      expect.objectContaining({ saidBy: 'Tem Sorrel', outcome: 'works' }),
    ]);
    expect(words).toContain(OFFICE.name);
    expect(words).toContain('Tem Sorrel');
    expect((await locate(first.id)).contradictions).toEqual(second.contradictions);
  });

  it('is read back to the office at once, each adding to those before, and not asked again', async () => {
    const ticket = await report([heard('A3', 'works'), heard('A8', 'fails')]);
    const checks: Check[] = ticket.officeChecks;
    expect(checks).toHaveLength(3);
    expect(checks[0]).toMatchObject({ kind: 'function', function: 'lamp', minutes: 2 });
    expect(checks[0]!.words).toMatch(/^look whether the lamp in Room \d+ is lit$/);
    for (const { informationBits, minutes, bitsPerMinute } of checks) {
      expect(informationBits).toBeGreaterThanOrEqual(0.05);
      expect(bitsPerMinute).toBeCloseTo(informationBits / minutes, 12);
    }
    const location = await locate(ticket.id);
    expect(location.officeChecks).toEqual(checks);
    const told = checks
      .filter(({ kind }) => kind === 'function')
      .map(({ node, function: name }) => heard(node!, 'works', name!));
    await post(`/tickets/${ticket.id}/reports`, {
      saidBy: OFFICE,
      how: 'gone-through',
      observations: told,
    });
    const later: Check[] = (await locate(ticket.id)).officeChecks;
    const asked = new Set(checks.map(pointOf));
    expect(later.map(pointOf).filter((point) => asked.has(point))).toEqual([]);
  });

  it('is listed for the technician with what it takes, two of a kind at most, best first', async () => {
    const ticket = await report([heard('A3', 'works'), heard('A8', 'fails')]);
    const { technicianChecks } = await locate(ticket.id);
    const rates = (technicianChecks as Check[]).map(({ bitsPerMinute }) => bitsPerMinute);
    expect(rates).toEqual([...rates].sort((a, b) => b - a));
    const words = (technicianChecks as Check[]).map((one) => one.words).join('\n');
    expect(words).toMatch(/^measure the supply voltage in Room \d+$/m);
    expect(words).toMatch(/^isolate trunk A and measure every core for continuity from Room \d+/m);
    expect(words).toMatch(/^look whether the lamp in Room \d+ is lit$/m);
    const kinds = (technicianChecks as Check[]).map(({ kind }) => kind);
    for (const kind of kinds)
      expect(kinds.filter((one) => one === kind).length).toBeLessThanOrEqual(2);
  });

  it('asks a technician to disconnect what is past a room where a short is likely', async () => {
    const silent = row('A', 10).nodes.map(({ node }) => heard(node, 'fails', 'lamp'));
    const { id } = await report([...silent, heard('B1', 'works', 'lamp')]);
    const { technicianChecks } = await locate(id);
    const isolation = (technicianChecks as Check[]).find(({ kind }) => kind === 'isolation');
    expect(isolation?.words).toMatch(
      /^disconnect everything past Room \d+: does the lamp come back there\?$/,
    );
  });

  it('asks for the head-end where all is silent, and believes the answer', async () => {
    const all = [...row('A', 10).nodes, ...row('B', 3).nodes];
    const ticket = await report(all.map(({ node }) => heard(node, 'fails', 'bell')));
    const check = (ticket.officeChecks as Check[]).find(({ kind }) => kind === 'head-end');
    expect(check).toMatchObject({ node: null, function: null, minutes: 1 });
    const before = placeOf(await locate(ticket.id), 'head-end').components[0]!.modes;
    await answer(ticket.id, 'head-end-on', 'yes');
    const on = placeOf(await locate(ticket.id), 'head-end').components[0]!.modes;
    // The office misses one in ten, and sees one in a hundred that is not there.
    expect(odds(on.power!)).toBeLessThan(odds(before.power!) / 8);
    await answer(ticket.id, 'head-end-on', 'no');
    const off = placeOf(await locate(ticket.id), 'head-end').components[0]!.modes;
    expect(off.power).toBeGreaterThan(before.power!);
    const { officeChecks } = await locate(ticket.id);
    const questions = (officeChecks as Check[]).map(({ question }) => question);
    expect(questions).not.toContain('head-end-on');
    await answer(ticket.id, 'rooms-selected', 'unknown');
  });

  it.each([
    ['microphone-on', ['announcement'], ['bell']],
    ['ordinary-day', ['bell'], ['announcement', 'music']],
    ['music-source-on', ['music'], ['announcement', 'bell']],
    ['sound-unit-on', ['announcement', 'bell', 'music'], ['lamp']],
  ])(
    'asks the office first for %s where %j is heard nowhere and %j everywhere',
    async (question, silent, rest) => {
      const rooms = ['B1', 'B2', 'B3'];
      const told = (names: string[], outcome: string) =>
        rooms.flatMap((node) => names.map((name) => heard(node, outcome, name)));
      const { id, officeChecks } = await report([...told(silent, 'fails'), ...told(rest, 'works')]);
      expect(officeChecks[0]).toMatchObject({ kind: 'head-end', question });
      const headEnd = async () => {
        const { result } = await locate(id);
        return result.places.find(({ place }: Place) => place.kind === 'head-end').accounts;
      };
      const before = await headEnd();
      expect(before).toBeGreaterThan(0.8);
      await answer(id, question, 'yes');
      expect(await headEnd()).toBeLessThan(before);
      const answered = async () =>
        (await test.http.get(`/api/v1/tickets/${id}`).expect(200)).body.askFirst.filter(
          (one: { answer: string | null }) => one.answer !== null,
        );
      expect(await answered()).toMatchObject([{ question, answer: 'yes', advice: null }]);
      const log = (await test.http.get(`/api/v1/tickets/${id}/log`).expect(200)).body.items;
      expect(log.at(-1)).toMatchObject({ kind: 'answer', details: { question, answer: 'yes' } });
      const looks = (await test.http.get(`/api/v1/tickets/${id}/looks`).expect(200)).body.items;
      const said = { saidBy: TECHNICIAN, reason: 'It was another cabinet' };
      await post(`/tickets/${id}/looks/${looks[0].id}/withdraw`, said);
      expect(await headEnd()).toBe(before);
      expect(await answered()).toEqual([]);
    },
  );

  it('asks the office first for the setting of a group that is silent as one, in her words', async () => {
    const { trunk, nodes } = row('C', 4);
    const grouped = nodes.map((node, n) => ({
      ...node,
      groups: n < 1 || n > 2 ? [] : ['upper: east'],
    }));
    siteId = await drawSite(test, [{ trunk, nodes: grouped }]);
    const rooms = [1, 2, 3, 4].flatMap((room) =>
      ['announcement', 'bell'].map((name) =>
        heard(`C${room}`, room < 2 || room > 3 ? 'works' : 'fails', name),
      ),
    );
    const { id, officeChecks } = await report(rooms);
    expect(officeChecks[0]).toMatchObject({
      question: 'group-on:upper: east',
      words: 'look whether “upper: east” is switched on at the cabinet in the office',
    });
    const about = async () => (await locate(id)).result.places[0].accounts as number;
    const before = await about();
    await answer(id, 'group-on:upper: east', 'no');
    const after = await locate(id);
    expect(after.result.places[0].place).toEqual({ kind: 'head-end' });
    const { body: told } = await test.http
      .get(`/api/v1/tickets/${id}`)
      .set('Accept-Language', 'es')
      .expect(200);
    expect(told.askFirst).toContainEqual({
      question: 'group-on:upper: east',
      text: '¿Está conectado «upper: east» en el armario de la oficina?',
      answer: 'no',
      advice: 'Conéctelo y escuche otra vez antes de que vaya nadie.',
    });
    expect(await about()).toBeGreaterThan(before);
    const asked = after.officeChecks.map((one: Check) => one.question);
    expect(asked).not.toContain('group-on:upper: east');
    const unknown = { saidBy: OFFICE, question: 'group-on:no such', answer: 'no' };
    await test.http.post(`/api/v1/tickets/${id}/answers`).send(unknown).expect(422);
  });

  it('asks for the volume in a single silent room, and does not blame it once it was up', async () => {
    const rest = ['A2', 'A3', 'A5', 'A6'].map((node) => heard(node, 'works'));
    const ticket = await report([
      heard('A4', 'fails'),
      heard('A4', 'fails', 'bell'),
      heard('A4', 'works', 'lamp'),
      ...rest,
    ]);
    const knob = (ticket.officeChecks as Check[]).find(({ kind }) => kind === 'volume-knob');
    expect(knob).toMatchObject({
      words: 'turn the volume knob in Room 4 up and listen for an announcement again',
      kind: 'volume-knob',
      question: 'volume-up:A/A4',
    });
    const before = placeOf(await locate(ticket.id), 'station', 'A4').components[0]!.modes;
    await answer(ticket.id, 'volume-up:A/A4', 'yes');
    const location = await locate(ticket.id);
    const after = placeOf(location, 'station', 'A4').components[0]!.modes;
    expect(odds(after['volume-down']!)).toBeLessThan(odds(before['volume-down']!) / 8);
    expect(after.speaker).toBeGreaterThan(before.speaker!);
    const kinds = (location.officeChecks as Check[]).map(({ kind }) => kind);
    expect(kinds).not.toContain('volume-knob');
    const { body: log } = await test.http.get(`/api/v1/tickets/${ticket.id}/log`).expect(200);
    expect(log.items.at(-1)).toMatchObject({
      kind: 'answer',
      details: { question: 'volume-up:A/A4', answer: 'yes' },
    });
  });

  it('says that the drawing may be wrong, and what goes badly with the rest, where rooms alternate', async () => {
    const ordinary = await report([heard('B1', 'works'), heard('B2', 'fails')]);
    const { surprise } = await locate(ordinary.id);
    expect(surprise).toMatchObject({ drawingMayBeWrong: false, mostSurprising: [] });
    expect(surprise.simulated).toBeLessThan(299);

    const told = row('A', 10).nodes.map(({ node }, n) =>
      heard(node, n % 3 === 0 ? 'works' : 'fails', 'lamp'),
    );
    const ticket = await report(told, { saidBy: TECHNICIAN });
    const location = await locate(ticket.id);
    expect(location.surprise).toMatchObject({ drawingMayBeWrong: true, simulated: 299 });
    expect(location.surprise.share).toBeLessThan(0.01);
    const named: { words: string; logChance: number }[] = location.surprise.mostSurprising;
    expect(named).toHaveLength(5);
    expect(named[0]!.words).toMatch(/^Room \d+: lamp (works|fails), says Ilvo Marsh$/);
    const chances = named.map(({ logChance }) => logChance);
    expect(chances).toEqual([...chances].sort((a, b) => a - b));
    expect((await locate(ticket.id)).surprise).toEqual(location.surprise);
  });

  it('judges the drawing by what was so at one time', async () => {
    const at = (hour: number) => `2026-03-01T0${hour}:00:00Z`;
    const told = (outcome: string) => row('A', 10).nodes.map(({ node }) => heard(node, outcome));
    const first = await report(told('fails'), { saidBy: TECHNICIAN, saidAt: at(1) });
    const before = (await locate(first.id)).surprise;
    await report(told('works'), { saidBy: TECHNICIAN, saidAt: at(3) });
    const location = await locate(first.id);
    expect(location.sittings).toBe(2);
    expect(location.surprise).toEqual(before);
  });
});
