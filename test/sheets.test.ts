import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { buildRawWorkbook, buildWorkbook, zip } from './support/build-workbook.js';
import { buildTestApp, type TestApp } from './support/test-app.js';

const CLIENT = '01900000-0000-7000-8000-00000000c101';
const SITE = '01900000-0000-7000-8000-00000000d101';
const NOTE = { changedBy: 'Ilvo Marsh', reason: 'Sheet of the installer' };
const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

describe('sheets as people have them', () => {
  let test: TestApp;
  const record = `/api/v1/sites/${SITE}/as-built`;

  beforeAll(async () => {
    test = await buildTestApp();
    const client = { id: CLIENT, name: 'Orrin Vale schools' };
    await test.http.post('/api/v1/clients').send(client).expect(201);
    const site = { id: SITE, clientId: CLIENT, name: 'Lower School', zone: 'UTC' };
    await test.http.post('/api/v1/sites').send(site).expect(201);
  });

  afterAll(() => test.close());

  const put = (sheet: string | Buffer, version: number, query: object = {}, type = 'text/csv') =>
    test.http
      .put(`${record}/sheet`)
      .query({ ...NOTE, ...query })
      .set('content-type', type)
      .set('If-Match', `"${version}"`)
      .send(sheet);
  const version = async () => (await test.http.get(record).expect(200)).body.version;
  const reasons = async (workbook: Buffer) => {
    const { body } = await put(workbook, 0, {}, XLSX).expect(422);
    return body.errors.map((error: { reason: string }) => error.reason);
  };

  it('bounds what a workbook may unpack to, whatever it says of itself', async () => {
    const zeros = zip({ 'xl/workbook.xml': new Uint8Array(100 * 1024 * 1024) });
    expect(zeros.length).toBeLessThan(1024 * 1024);
    const asCsv = '; save its as-built sheet as CSV in UTF-8';
    expect(await reasons(zeros)).toEqual([`the workbook holds more than 24 MB unpacked${asCsv}`]);
    const parts = Array.from({ length: 4000 }, (_, i) => [`p${i}.xml`, new Uint8Array(1)]);
    expect(await reasons(zip(Object.fromEntries(parts)))).toEqual([
      `the workbook holds more than 1000 parts${asCsv}`,
    ]);
    const cell = (at: string) => `<c r="${at}"><v>1</v></c>`;
    const far = [
      `<row r="1000000000">${cell('A1000000000')}</row>`,
      `<row r="1">${cell('XFD1')}</row>`,
    ];
    expect(await reasons(buildRawWorkbook(far[0]!))).toEqual([
      `the workbook holds more than 50000 lines${asCsv}`,
    ]);
    expect(await reasons(buildRawWorkbook(far[1]!))).toEqual([
      `the workbook holds a value in the column XFD${asCsv}`,
    ]);
    // Written so that a look at it finds nothing: its thread is ended, and the service lives.
    expect(await reasons(buildRawWorkbook(far[0]!.replaceAll('"', "'")))).toEqual([
      `the workbook takes too much time or memory${asCsv}`,
    ]);
    expect(await version()).toBe(0);
  });

  it('refuses what is no workbook', async () => {
    const no = 'the workbook is no workbook (.xlsx): save it as one, or as CSV in UTF-8';
    expect(await reasons(zip({ 'a.txt': new Uint8Array(9) }))).toEqual([no]);
    const good = buildWorkbook({ Sheet: [['trunk', 'node']] });
    expect(await reasons(good.subarray(0, good.length / 2))).toHaveLength(1);
    const broken = buildRawWorkbook('<row r="1"><c r="A1"');
    expect(await reasons(broken)).toHaveLength(1);
    // A workbook of the older kind is no text either.
    const older = Buffer.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, 0, 0]);
    expect(await reasons(older)).toEqual([expect.stringContaining('NUL')]);
  });

  it('takes a workbook: titles, merged cells, numbers, days, yes and no, the sheet that fits', async () => {
    const workbook = buildWorkbook({
      Cover: [['Lower School'], ['drawn by I. Marsh']],
      'As built': [
        ['Lower School', null, null, null, null, null, null],
        [],
        ['Trunk', 'Floor', 'Node', 'Room', 'Cable metres', 'Installed on', 'Is out'],
        ['A', 'ground', 'A1', 'Office', 18, { day: '2024-05-03' }, null],
        [null, null, 'A2', 101, 9.5, { day: '2024-12-31' }, true],
        [null, 'first', 'A3', 'Room 3', 0.1 + 0.2, '3.5.2024', false],
        [null, null, 'Total', null, 27.8, null, null],
      ],
    });
    const checked = await put(workbook, 0, { check: true }, XLSX).expect(200);
    expect(checked.body).toMatchObject({ version: 0, saved: false });
    const { body } = await put(workbook, 0, {}, XLSX).expect(200);
    expect(body).toMatchObject({ version: 1, saved: true });
    expect(body.notes).toEqual([
      { line: 1, note: 'a title; left out' },
      { line: 7, note: 'a total; left out' },
    ]);
    const { trunks } = (await test.http.get(record).expect(200)).body;
    const rows = trunks[0].nodes.map((node: Record<string, unknown>) =>
      ['node', 'floor', 'room', 'cableMetres', 'unitInstalledOn', 'isOut'].map(
        (name) => node[name],
      ),
    );
    expect(rows).toEqual([
      ['A1', 'ground', 'Office', 18, '2024-05-03', false],
      ['A2', 'ground', '101', 9.5, '2024-12-31', true],
      ['A3', 'first', 'Room 3', 0.3, '2024-05-03', false],
    ]);
    const wrong = await put(workbook, 1, { sheet: 'Cover' }, XLSX).expect(422);
    expect(wrong.body.errors.map((error: { reason: string }) => error.reason)).toContain(
      'this column is missing',
    );
    const none = await put(workbook, 1, { sheet: 'Plan' }, XLSX).expect(422);
    expect(none.body.errors).toEqual([
      { field: 'sheet', reason: 'is none of its sheets: "Cover", "As built"' },
    ]);
  });

  it('names every bad cell of a workbook, and takes nothing of it', async () => {
    const workbook = buildWorkbook({
      Sheet: [
        ['trunk', 'node', 'cable metres', 'colour'],
        ['A', 'A1', 9.125, 'red'],
        ['A', 'A1', -4, null],
      ],
    });
    const { body } = await put(workbook, 1, {}, XLSX).expect(422);
    expect(body.errors).toMatchObject([
      { line: 1, column: 'colour' },
      { line: 2, column: 'cable metres', reason: 'is finer than whole centimetres' },
      { line: 3, column: 'cable metres', value: '-4', reason: 'is a negative length' },
      { line: 3, column: 'node', reason: 'A1 is there already (line 2)' },
    ]);
    expect(await version()).toBe(1);
    const inSpanish = await put(workbook, 1, {}, XLSX).set('Accept-Language', 'es').expect(422);
    expect(inSpanish.body.errors).toMatchObject([
      { line: 1, words: 'esta columna no es de una hoja del plano' },
      { line: 2, words: 'es más fino que centímetros enteros' },
      { line: 3, words: 'es una longitud negativa' },
      { line: 3, reason: 'A1 is there already (line 2)', words: 'A1 ya está (renglón 2)' },
    ]);
  });

  it('leaves out unknown columns and reads by a locale when asked', async () => {
    const sheet =
      'Trunk;Node;Kind;Fed from;Cable metres;Installed on;Colour\nA;A1;;;1.200;3/5/2024;red\n;T1;tee;;;;\n;B1;;T1;;;\n;;;;1.200;;\n';
    await put(sheet, 1).expect(422);
    const asked = { leaveOutUnknownColumns: true, locale: 'de' };
    const inFrench = await put(sheet, 1, { ...asked, check: true }).set('Accept-Language', 'fr');
    expect(inFrench.body.notes).toMatchObject([
      { line: 1, words: 'cette colonne n’est pas d’une feuille de plan ; laissée de côté' },
      { note: 'a total; left out', words: 'un total ; laissé de côté' },
    ]);
    const { body } = await put(sheet, 1, asked).expect(200);
    expect(body.notes).toEqual([
      {
        line: 1,
        column: 'Colour',
        note: 'there is no such column in an as-built sheet; left out',
      },
      { line: 5, note: 'a total; left out' },
    ]);
    expect(body.changes.nodesAdded).toEqual([
      { trunk: 'A', node: 'T1', kind: 'junction-box', room: null, isLengthGuessed: true },
      { trunk: 'A', node: 'B1', kind: 'station', room: null, isLengthGuessed: true },
    ]);
    const wrong = await put(sheet, 2, { locale: 'no language' }).expect(422);
    expect(wrong.body.errors).toMatchObject([{ field: 'locale' }]);
  });
});
