import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Client as Database } from 'pg';

import { buildTestApp, FIRM_ID, type TestApp } from './support/test-app.js';

const CLIENT = '01900000-0000-7000-8000-00000000c001';
const SITE = '01900000-0000-7000-8000-00000000d001';
const NOTE = { changedBy: 'Ilvo Marsh', reason: 'Installed' };

const DRAWING = {
  headEnd: {
    model: 'HE-6',
    place: 'Office',
    installedOn: '2024-05-03',
    supplyVolts: 24,
    supplyOhms: 0.2,
    stationAmps: 0.08,
    coreOhmsPerKm: 18.1,
  },
  trunks: [
    {
      trunk: 'A',
      name: 'North wing',
      port: '1',
      nodes: [
        { node: 'A1', cableMetres: 18, room: 'Room 1', unitModel: 'RS-2', unitSerial: '10441' },
        { node: 'J1', kind: 'junction-box', cableMetres: 9.5, cableType: '4 x 0.5' },
        { node: 'A2', cableMetres: 4, room: 'Room 2', unitInstalledOn: '2024-05-03' },
        { node: 'A3', fedFrom: 'J1', cableMetres: 6.25, room: 'Room 3' },
      ],
    },
  ],
};

describe('sites', () => {
  let test: TestApp;
  const record = `/api/v1/sites/${SITE}/as-built`;

  beforeAll(async () => {
    test = await buildTestApp();
  });

  afterAll(() => test.close());

  const putSheet = (sheet: string | Buffer, version: number | undefined, query: object = NOTE) => {
    const put = test.http.put(`${record}/sheet`).query(query).set('content-type', 'text/csv');
    return (version === undefined ? put : put.set('If-Match', `"${version}"`)).send(sheet);
  };
  const current = async () => (await test.http.get(record).expect(200)).body;
  /** Who, when, why and the number aside: what is drawn. */
  const drawn = async (version: number) => {
    const { body } = await test.http.get(`${record}?version=${version}`).expect(200);
    return { headEnd: body.headEnd, trunks: body.trunks };
  };

  it('keeps clients', async () => {
    const client = { id: CLIENT, name: 'Orrin Vale schools', email: 'office@orrinvale.example' };
    const { body } = await test.http.post('/api/v1/clients').send(client).expect(201);
    // A further field of clients leaves this alone.
    expect(body).toMatchObject({
      ...client,
      contactName: null,
      phone: null,
      version: 1,
      createdAt: '2026-03-02T08:00:00.000Z',
    });
    const path = `/api/v1/clients/${CLIENT}`;
    const changed = await test.http
      .patch(path)
      .set('If-Match', '"1"')
      .send({ contactName: 'Tamsin Roe', email: null })
      .expect(200);
    expect(changed.body).toMatchObject({ contactName: 'Tamsin Roe', email: null, version: 2 });
    await test.http.patch(path).set('If-Match', '"1"').send({ phone: '1' }).expect(412);
    const wrong = await test.http.post('/api/v1/clients').send({ email: 'no' }).expect(422);
    expect(wrong.body.errors.map(({ field }: { field: string }) => field)).toEqual([
      '/name',
      '/email',
    ]);
    expect((await test.http.get('/api/v1/clients').expect(200)).body).toEqual({
      items: [changed.body],
      next: null,
    });
    expect((await test.http.get(path)).headers['etag']).toBe('"2"');
  });

  it('keeps sites of a client', async () => {
    const site = {
      id: SITE,
      clientId: CLIENT,
      name: 'Lärkfield "Lower"/School',
      zone: 'Asia/Kolkata',
    };
    const { body } = await test.http.post('/api/v1/sites').send(site).expect(201);
    expect(body).toEqual({
      ...site,
      address: null,
      latitude: null,
      longitude: null,
      safetyNotes: null,
      servesEmergencyCalls: false,
      version: 1,
      asBuiltVersion: 0,
      createdAt: '2026-03-02T08:00:00.000Z',
    });
    const path = `/api/v1/sites/${SITE}`;
    const change = (patch: object) => test.http.patch(path).set('If-Match', '"1"').send(patch);
    const errors = async (patch: object) => (await change(patch).expect(422)).body.errors;
    expect(await errors({ zone: 'Nowhere/Land' })).toEqual([
      { field: '/zone', reason: 'must be an IANA time zone such as Europe/Lisbon' },
    ]);
    expect(await errors({ latitude: 12 })).toEqual([
      { field: '/longitude', reason: 'is missing: a position has both' },
    ]);
    expect(await errors({ clientId: SITE })).toEqual([
      { field: '/clientId', reason: `there is no client ${SITE}` },
    ]);
    const changed = await change({ latitude: 12.5, longitude: -3, servesEmergencyCalls: true });
    expect(changed.body).toMatchObject({ latitude: 12.5, servesEmergencyCalls: true, version: 2 });
    const list = async (client: string) =>
      (await test.http.get(`/api/v1/sites?client=${client}`).expect(200)).body.items;
    expect(await list(CLIENT)).toEqual([changed.body]);
    expect(await list(SITE)).toEqual([]);
  });

  it('starts with nothing drawn, which is version 0', async () => {
    const { body, headers } = await test.http.get(record).expect(200);
    expect(body).toMatchObject({ siteId: SITE, version: 0, changedBy: null, trunks: [] });
    expect(headers['etag']).toBe('"0"');
    await test.http.get(`${record}?version=1`).expect(404);
    await test.http.get('/api/v1/sites/01900000-0000-7000-8000-00000000dead/as-built').expect(404);
  });

  it('takes a drawing whole or not at all, and tells everything that is wrong', async () => {
    await test.http
      .put(record)
      .send({ ...NOTE, ...DRAWING })
      .expect(428);
    const { body } = await test.http
      .put(record)
      .set('If-Match', '"0"')
      .send({
        changedBy: ' ',
        why: 'x',
        headEnd: { supplyVolts: 'many' },
        trunks: [
          {
            trunk: 'A',
            nodes: [
              { node: 'A1', cableMetres: 18 },
              { node: 'A2', cableMetres: -1, fedFrom: 'A9' },
              { node: 'A1', cableMetres: 18, fedFrom: 'A2', room: 'a\u0001' },
            ],
          },
        ],
      })
      .expect(422);
    expect(body.errors).toEqual([
      { field: '/changedBy', reason: 'is missing' },
      { field: '/reason', reason: 'is missing' },
      { field: '/why', reason: 'is not a field here' },
      {
        field: '/headEnd/supplyVolts',
        reason: 'must be a number of volts, more than 0 and at most 1000',
      },
      { field: '/trunks/0/nodes/1/cableMetres', reason: 'is a negative length' },
      { field: '/trunks/0/nodes/2/room', reason: 'has a control character in it' },
      {
        field: '/trunks/0/nodes/1/fedFrom',
        reason: 'there is no node A9 on this trunk',
      },
      {
        field: '/trunks/0/nodes/2/fedFrom',
        reason: 'A1 is fed by two: from the head-end (/trunks/0/nodes/0) and from A2 here',
      },
    ]);
    expect((await current()).version).toBe(0);
    const saved = await test.http
      .put(record)
      .set('If-Match', '"0"')
      .send({ ...NOTE, ...DRAWING })
      .expect(200);
    expect(saved.headers['etag']).toBe('"1"');
    expect(saved.body).toMatchObject({ siteId: SITE, version: 1, saved: true });
    expect(saved.body.changes.nodesAdded).toHaveLength(4);
    const again = await current();
    expect(again).toMatchObject({ version: 1, ...NOTE, changedAt: '2026-03-02T08:00:00.000Z' });
    expect(again.headEnd).toEqual({ ...DRAWING.headEnd, serial: null });
    expect(again.trunks[0].nodes[2]).toMatchObject({
      node: 'A2',
      kind: 'station',
      fedFrom: 'J1',
      cableType: null,
      cableMetres: 4,
      isLengthGuessed: false,
      room: 'Room 2',
      block: null,
      floor: null,
      unitModel: null,
      unitSerial: null,
      unitInstalledOn: '2024-05-03',
      groups: [],
      isOut: false,
      lacks: [],
    });
  });

  it('makes no version of what it has already', async () => {
    const { headEnd, trunks } = await current();
    const { body } = await test.http
      .put(record)
      .set('If-Match', '"1"')
      .send({ ...NOTE, headEnd, trunks })
      .expect(200);
    expect(body).toMatchObject({ version: 1, saved: false, changes: { nodesChanged: [] } });
  });

  it('changes one node by a merge patch, and writes that row alone', async () => {
    test.clock.tick(60);
    const path = `${record}/trunks/A/nodes`;
    const change = { changedBy: 'Bea Orne', reason: 'Unit in Room 1 replaced' };
    const patch = (node: string, body: object) =>
      test.http.patch(`${path}/${node}`).set('If-Match', '"1"').send(body);
    await patch('Z9', change).expect(404);
    const wrong = await patch('A1', { fedFrom: 'A2', node: 'A7', kind: 'tee' }).expect(422);
    expect(wrong.body.errors.map(({ field }: { field: string }) => field)).toEqual([
      '/changedBy',
      '/reason',
      '/node',
      '/kind',
      '/fedFrom',
    ]);
    const { body } = await patch('A1', { ...change, unitSerial: '20999', unitModel: null }).expect(
      200,
    );
    expect(body).toEqual({
      siteId: SITE,
      version: 2,
      saved: true,
      changes: {
        headEnd: [],
        trunksAdded: [],
        trunksRemoved: [],
        trunksChanged: [],
        nodesAdded: [],
        nodesRemoved: [],
        nodesChanged: [
          {
            trunk: 'A',
            node: 'A1',
            fields: [
              { field: 'unitModel', before: 'RS-2', after: null },
              { field: 'unitSerial', before: '10441', after: '20999' },
            ],
          },
        ],
      },
    });
    await patch('A1', change).expect(412);
    const before = await drawn(1);
    expect(before.trunks[0].nodes[0]).toMatchObject({ unitSerial: '10441' });
    const rows = await sql(
      `SELECT node, since_version, until_version FROM as_built_nodes ORDER BY position, since_version`,
    );
    expect(rows).toEqual([
      { node: 'A1', since_version: 1, until_version: 2 },
      { node: 'A1', since_version: 2, until_version: null },
      { node: 'J1', since_version: 1, until_version: null },
      { node: 'A2', since_version: 1, until_version: null },
      { node: 'A3', since_version: 1, until_version: null },
    ]);
  });

  it('lets exactly one of several changes of the same version win', async () => {
    const { headEnd, trunks, version } = await current();
    const answers = await Promise.all(
      ['HE-7', 'HE-8', 'HE-9'].map((model) =>
        test.http
          .put(record)
          .set('If-Match', `"${version}"`)
          .send({ ...NOTE, headEnd: { ...headEnd, model }, trunks }),
      ),
    );
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 412, 412]);
    expect((await current()).version).toBe(version + 1);
    // The site's own change does not touch the record's version.
    const site = await test.http.get(`/api/v1/sites/${SITE}`);
    expect(site.body).toMatchObject({ version: 2, asBuiltVersion: version + 1 });
  });

  it('takes a messy sheet, keeping what it has no column for', async () => {
    const sheet =
      '\uFEFFRoom;Cable_Metres;NODE; trunk ;fed from;kind\r\n' +
      '"Room\r\n1";18,5;A1;A;;\r\n' +
      ';;;;;\r\n' +
      ';9,5;J1;A;;Junction box\r\n' +
      'Room 4;4;A4;A;J1;\r\n' +
      'Hall;7;B1;B;head-end;station\r\n\r\n';
    const checked = await putSheet(sheet, undefined, { check: true }).expect(200);
    expect(checked.body).toMatchObject({ version: 3, saved: false });
    expect((await current()).version).toBe(3);
    await putSheet(sheet, undefined).expect(428);
    await putSheet(sheet, 2).expect(412);
    const unsigned = await putSheet(sheet, 3, { changedBy: 'Ilvo' }).expect(422);
    expect(unsigned.body.errors).toEqual([{ field: 'reason', reason: 'is missing' }]);

    const { body } = await putSheet(sheet, 3, { ...NOTE, reason: 'Survey' }).expect(200);
    expect(body).toMatchObject({ version: 4, saved: true, changes: checked.body.changes });
    expect(body.changes).toEqual({
      headEnd: [],
      trunksAdded: ['B'],
      trunksRemoved: [],
      trunksChanged: [],
      nodesAdded: [
        { trunk: 'A', node: 'A4', kind: 'station', room: 'Room 4', isLengthGuessed: false },
        { trunk: 'B', node: 'B1', kind: 'station', room: 'Hall', isLengthGuessed: false },
      ],
      nodesRemoved: [
        { trunk: 'A', node: 'A2', kind: 'station', room: 'Room 2', isLengthGuessed: false },
        { trunk: 'A', node: 'A3', kind: 'station', room: 'Room 3', isLengthGuessed: false },
      ],
      nodesChanged: [
        { trunk: 'A', node: 'A1', fields: [{ field: 'cableMetres', before: 18, after: 18.5 }] },
      ],
    });
    const after = await current();
    expect(after.headEnd).toMatchObject({ place: 'Office' });
    expect(after.trunks).toMatchObject([
      {
        trunk: 'A',
        name: 'North wing',
        port: '1',
        nodes: [{ unitSerial: '20999' }, { cableType: '4 x 0.5' }, {}],
      },
      { trunk: 'B', name: '', port: null },
    ]);
  });

  it('refuses a bad sheet as a whole, with line, column, value and reason of everything', async () => {
    const before = await current();
    const sheet = 'trunk,node,fed from,cable metres\nA,A1,,18\n\nA,A2,A7,-4\nA,A1,A2,3\n';
    const { body } = await putSheet(sheet, 4).expect(422);
    expect(body).toMatchObject({
      type: 'urn:lastheard:problem:invalid-input',
      errors: [
        {
          field: 'cable metres',
          line: 4,
          column: 'cable metres',
          value: '-4',
          reason: 'is a negative length',
        },
        { field: 'fed from', line: 4, column: 'fed from', value: 'A7' },
        {
          field: 'fed from',
          line: 5,
          value: 'A2',
          reason: 'A1 is fed by two: from the head-end (line 2) and from A2 here',
        },
      ],
    });
    const latin = Buffer.from('trunk,node,cable metres,room\nA,A1,5,Caf\xe9\n', 'latin1');
    const mojibake = await putSheet(latin, 4, { check: true }).expect(422);
    expect(mojibake.body.errors).toMatchObject([
      { line: 2, reason: expect.stringContaining('UTF-8') },
    ]);
    await putSheet('', 4).expect(422);
    await test.http.put(`${record}/sheet`).query(NOTE).set('If-Match', '"4"').send({}).expect(415);
    await putSheet(sheet, 4, { check: 'yes' }).expect(422);
    expect(await current()).toEqual(before);
  });

  it('exports a sheet whose import changes nothing', async () => {
    const { text, headers } = await test.http.get(`${record}/sheet`).expect(200);
    expect(headers).toMatchObject({
      'content-type': 'text/csv; charset=utf-8',
      'content-disposition': 'attachment; filename="as-built-larkfield-lower-school-version-4.csv"',
      etag: '"4"',
    });
    expect((await putSheet(text, 4).expect(200)).body).toMatchObject({ version: 4, saved: false });
    // An earlier version's sheet brings its nodes back.
    const old = await test.http.get(`${record}/sheet?version=1`).expect(200);
    await putSheet(old.text, 4, { ...NOTE, reason: 'Back as installed' }).expect(200);
    expect((await drawn(5)).trunks).toEqual((await drawn(1)).trunks);
    await test.http.get(`${record}/sheet?version=9`).expect(404);
  });

  it('lists the versions, newest first, and compares any two', async () => {
    const versions: { version: number; reason: string }[] = [];
    for (let after = ''; ;) {
      const { body } = await test.http.get(`${record}/versions?limit=2${after}`).expect(200);
      versions.push(...body.items);
      if (body.next === null) break;
      after = `&after=${body.next}`;
    }
    expect(versions.map(({ version, reason }) => [version, reason])).toEqual([
      [5, 'Back as installed'],
      [4, 'Survey'],
      [3, 'Installed'],
      [2, 'Unit in Room 1 replaced'],
      [1, 'Installed'],
    ]);
    const forged = Buffer.from('["x"]').toString('base64url');
    await test.http.get(`${record}/versions?after=${forged}`).expect(422);
    const { body } = await test.http.get(`${record}/compare?from=1&to=2`).expect(200);
    expect(body).toMatchObject({ from: 1, to: 2, nodesAdded: [], nodesChanged: [{ node: 'A1' }] });
    const back = (await test.http.get(`${record}/compare?from=2&to=0`).expect(200)).body;
    expect(back.nodesRemoved).toHaveLength(4);
    await test.http.get(`${record}/compare?from=1&to=99`).expect(404);
    await test.http.get(`${record}/compare?from=1`).expect(422);
  });

  it('keeps groups, units that are out, what they lack and guessed lengths', async () => {
    const site = '01900000-0000-7000-8000-00000000d003';
    const path = `/api/v1/sites/${site}/as-built`;
    await test.http
      .post('/api/v1/sites')
      .send({ id: site, clientId: CLIENT, name: 'Annex', zone: 'UTC' })
      .expect(201);
    const nodes = [
      { node: 'A1', cableMetres: 12, groups: ['ground floor', 'staff'] },
      { node: 'A2', isOut: true },
      { node: 'A3', cableMetres: 30, lacks: ['talkback'] },
    ];
    const put = { ...NOTE, headEnd: {}, trunks: [{ trunk: 'A', nodes }] };
    await test.http.put(path).set('If-Match', '"0"').send(put).expect(200);
    const drawnNodes = async () => (await test.http.get(path).expect(200)).body.trunks[0].nodes;
    expect(await drawnNodes()).toMatchObject([
      { groups: ['ground floor', 'staff'], isOut: false, lacks: [], isLengthGuessed: false },
      { groups: [], isOut: true, cableMetres: 12, isLengthGuessed: true },
      { lacks: ['talkback'] },
    ]);
    const patch = (node: string, version: number, body: object) =>
      test.http
        .patch(`${path}/trunks/A/nodes/${node}`)
        .set('If-Match', `"${version}"`)
        .send({ ...NOTE, ...body });
    const { body } = await patch('A2', 1, { cableMetres: 9, groups: ['staff'], isOut: false });
    expect(body.changes.nodesChanged).toEqual([
      {
        trunk: 'A',
        node: 'A2',
        fields: [
          { field: 'groups', before: [], after: ['staff'] },
          { field: 'isOut', before: true, after: false },
          { field: 'cableMetres', before: 12, after: 9 },
          { field: 'isLengthGuessed', before: true, after: false },
        ],
      },
    ]);
    await patch('A2', 2, { groups: ['staff'] }).expect(200, /"saved":false/);
    const wrong = await patch('A2', 2, { lacks: ['chime'] }).expect(422);
    expect(wrong.body.errors).toMatchObject([{ field: '/lacks' }]);
    await patch('A1', 2, { cableMetres: null }).expect(200, /"saved":true/);
    expect(await drawnNodes()).toMatchObject([
      { cableMetres: 9, isLengthGuessed: true },
      { cableMetres: 9, isLengthGuessed: false },
      {},
    ]);
    const { text } = await test.http.get(`${path}/sheet?version=1`).expect(200);
    const lines = text.split('\r\n').slice(1, 4);
    expect(lines[0]).toMatch(/^A,1,A1,station,head-end,,12,,,+"ground floor, staff",,$/);
    expect(lines[1]).toMatch(/^A,2,A2,station,A1,,12,yes,,+yes,$/);
    expect(lines[2]).toMatch(/^A,3,A3,station,A2,,30,,,+talkback$/);
  });

  it('takes a sheet of 5,000 rows', async () => {
    const big = '01900000-0000-7000-8000-00000000d002';
    const site = { id: big, clientId: CLIENT, name: 'Works', zone: 'UTC' };
    await test.http.post('/api/v1/sites').send(site).expect(201);
    const rows = Array.from({ length: 5000 }, (_, i) => {
      const trunk = `T${(i % 10) + 1}`;
      return `${trunk};N${i};4 x 0.5;${(i % 40) + 1},25;Room ${i};North;${i % 4};RS-2;S${i};2024-05-03`;
    });
    const header =
      'trunk;node;cable type;cable metres;room;block;floor;unit model;unit serial;installed on';
    const put = (lines: string[], version: number) =>
      test.http
        .put(`/api/v1/sites/${big}/as-built/sheet`)
        .query(NOTE)
        .set('content-type', 'text/csv')
        .set('If-Match', `"${version}"`)
        .send([header, ...lines].join('\r\n'));
    const { body } = await put(rows, 0).expect(200);
    expect(body.changes.nodesAdded).toHaveLength(5000);
    const read = await test.http.get(`/api/v1/sites/${big}/as-built`).expect(200);
    expect(
      read.body.trunks.map(({ trunk, nodes }: { trunk: string; nodes: [] }) => [
        trunk,
        nodes.length,
      ]),
    ).toEqual(Array.from({ length: 10 }, (_, i) => [`T${i + 1}`, 500]));
    const changed = await put(rows.with(7, rows[7]!.replace('RS-2', 'RS-3')), 1).expect(200);
    expect(changed.body.changes.nodesChanged).toHaveLength(1);
    const [count] = await sql(`SELECT count(*)::int FROM as_built_nodes WHERE site_id = '${big}'`);
    expect(count).toEqual({ count: 5001 });
    await put([...rows, 'T1;X;;1'], 2).expect(422);
  });

  it('says why it refuses in the language asked for, beside the English', async () => {
    const refused = async (language: string) => {
      const answer = await test.http
        .post('/api/v1/sites')
        .set('accept-language', language)
        .send({ name: '', zone: 'Nowhere' })
        .expect(422);
      return { language: answer.headers['content-language'], ...answer.body };
    };
    const english = await refused('en');
    expect(english.language).toBe('en');
    expect(JSON.stringify(english)).not.toContain('words');
    const spanish = await refused('es-MX, en;q=0.5');
    expect(spanish).toMatchObject({ language: 'en, es', detail: english.detail });
    expect(spanish.words).toMatch(/^Hay \d errores en lo enviado; no se guardó nada\.$/);
    const byField = ({ errors }: { errors: { field: string }[] }) =>
      new Map(errors.map(({ field, ...told }) => [field, told]));
    expect(byField(spanish).get('/zone')).toEqual({
      ...byField(english).get('/zone'),
      words: 'tiene que ser una zona horaria, como Europe/Lisbon',
    });
    const none = await test.http
      .get('/api/v1/sites/018f0000-0000-7000-8000-000000000000')
      .set('accept-language', 'hi')
      .expect(404);
    expect(none.body.words).toBe('वह अब नहीं है।');
  });

  it('describes the sheet in the API document', async () => {
    const { body } = await test.http.get('/api/openapi.json').expect(200);
    const path = body.paths['/api/v1/sites/{siteId}/as-built/sheet'];
    expect(Object.keys(path.put.requestBody.content)).toEqual([
      'text/csv',
      'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
    ]);
    expect(Object.keys(path.get.responses['200'].content)).toEqual(['text/csv']);
    expect(
      path.put.responses['422'].content['application/problem+json'].example.errors,
    ).toHaveLength(2);
    expect(
      path.put.parameters.map(({ name, required }: { name: string; required: boolean }) => [
        name,
        required,
      ]),
    ).toEqual(
      expect.arrayContaining([
        ['If-Match', false],
        ['check', false],
        ['siteId', true],
      ]),
    );
    expect(body.components.schemas.NodeDto.properties.kind.enum).toEqual([
      'station',
      'junction-box',
    ]);
  });

  async function sql(text: string): Promise<object[]> {
    const database = new Database(test.appUrl);
    await database.connect();
    try {
      await database.query(`SELECT set_config('app.firm_id', '${FIRM_ID}', false)`);
      return (await database.query<object>(text)).rows;
    } finally {
      await database.end();
    }
  }
});
