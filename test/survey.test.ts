import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

import { ComputeService } from '#app/compute/compute.service.js';

import { drawSite, row } from './support/draw-site.js';
import { buildTestApp, type TestApp, type TestPerson } from './support/test-app.js';

const MEASURED = { kind: 'measured', ohmsPerKm: 20, celsius: 20 };
const SUPPLY = { conductor: MEASURED, sourceVolts: 24, stationAmps: 0.1, minimumVolts: 20 };
const nodes = [
  { id: 'A1', cableMetres: 100 },
  { id: 'A2', cableMetres: 50 },
];

describe('survey', () => {
  let test: TestApp;
  let technician: TestPerson;

  beforeAll(async () => {
    test = await buildTestApp();
    technician = await test.addPerson('technician');
  });

  afterAll(() => test.close());

  const ask = (path: string, body: object) => technician.http.post(`/api/v1${path}`).send(body);
  const wrong = async (path: string, body: object) =>
    (await ask(path, body).expect(422)).body.errors;

  it('reckons every station, the margin, the longest trunk and the smallest conductor', async () => {
    const { body } = await ask('/survey', { ...SUPPLY, sourceOhms: 1, nodes }).expect(200);
    // 0.04 ohm/m go and return; 0.2 A through 1 ohm and 4 ohm, 0.1 A through 2 ohm.
    expect(body.core).toEqual({ ohmsPerKmAt20: 20, figure: 'measured', loopOhmsPerMetre: 0.04 });
    expect(body.portVolts).toBeCloseTo(23.8, 9);
    expect(body.portAmps).toBeCloseTo(0.2, 12);
    expect(body.stations.map(({ volts }: { volts: number }) => volts)).toEqual([
      expect.closeTo(23, 9),
      expect.closeTo(22.8, 9),
    ]);
    expect(body.last).toEqual({
      id: 'A2',
      cableMetres: 150,
      volts: expect.closeTo(22.8, 9),
      marginVolts: expect.closeTo(2.8, 9),
    });
    // Equal spans of 75 m, 3 ohm each: the n-th gets 24 - 0.1 n - 0.3 n (n + 1)/2.
    expect(body.longest).toMatchObject({ stations: 4, cableMetres: 300 });
    expect(body.smallest).toMatchObject({ squareMillimetres: 0.5 });
    expect(body.aboveExtraLowVoltage).toBe(false);
  });

  it('takes sizes and gauges, temperature, and constant powers', async () => {
    const iec = { kind: 'iec-60228', squareMillimetres: 1, conductorClass: 2 };
    const warm = { ...SUPPLY, conductor: iec, celsius: 50, nodes };
    const { body } = await ask('/survey', warm).expect(200);
    expect(body.core).toMatchObject({ ohmsPerKmAt20: 18.1, figure: 'maximum' });
    expect(body.core.loopOhmsPerMetre).toBeCloseTo((0.0362 * (234.5 + 50)) / 254.5, 9);
    const gauge = { kind: 'awg', gauge: 18 };
    const awg = await ask('/survey', { ...SUPPLY, conductor: gauge, nodes }).expect(200);
    expect(awg.body.core.figure).toBe('nominal');
    const { stationAmps, ...rest } = SUPPLY;
    const watts = { ...rest, stationWatts: stationAmps * 24, nodes };
    const powered = (await ask('/survey', watts).expect(200)).body;
    const amps = (await ask('/survey', { ...SUPPLY, nodes }).expect(200)).body;
    expect(powered.last.volts).toBeLessThan(amps.last.volts);
  });

  it('surveys a trunk of the record, with the head-end’s volts', async () => {
    const siteId = await drawSite(test, [row('A', 3)]);
    await test.http
      .post('/api/v1/visits')
      .send({
        siteId,
        kind: 'planned',
        on: '2026-03-02',
        purpose: 'Commissioning',
        upkeep: true,
        technicianId: technician.id,
      })
      .expect(201);
    const { sourceVolts, ...supply } = SUPPLY;
    const path = `/sites/${siteId}/as-built/trunks/A/survey`;
    const { body } = await ask(path, { ...supply, sourceVolts }).expect(200);
    expect(body.stations.map(({ id }: { id: string }) => id)).toEqual(['A1', 'A2', 'A3']);
    expect(body.last.volts).toBeCloseTo(24 - 0.1 * 0.4 * 6, 9);
    const { conductor, ...unknown } = { ...supply, sourceVolts };
    expect(conductor).toBeDefined();
    expect(await wrong(path, unknown)).toEqual([
      { field: '/conductor', reason: 'is missing, and the record does not say it' },
    ]);
    expect(await wrong(path, supply)).toEqual([
      { field: '/sourceVolts', reason: 'is missing, and the record does not say it' },
    ]);
    const current = await test.http.get(`/api/v1/sites/${siteId}/as-built`).expect(200);
    await test.http
      .put(`/api/v1/sites/${siteId}/as-built`)
      .set('If-Match', current.headers.etag as string)
      .send({
        changedBy: 'T',
        reason: 'Supply',
        headEnd: { supplyVolts: 48 },
        trunks: [row('A', 3)],
      })
      .expect(200);
    expect((await ask(path, supply).expect(200)).body.last.volts).toBeCloseTo(48 - 0.24, 9);
    const all = { supplyVolts: 48, supplyOhms: 1, stationAmps: 0.1, coreOhmsPerKm: 20 };
    await test.http
      .put(`/api/v1/sites/${siteId}/as-built`)
      .set('If-Match', '"2"')
      .send({ changedBy: 'T', reason: 'Supply', headEnd: all, trunks: [row('A', 3)] })
      .expect(200);
    const known = (await ask(path, { minimumVolts: 20 }).expect(200)).body;
    expect(known.core).toMatchObject({ ohmsPerKmAt20: 20, figure: 'measured' });
    expect(known.last.volts).toBeCloseTo(48 - 0.3 - 0.24, 9);
    const watts = (await ask(path, { minimumVolts: 20, stationWatts: 9 }).expect(200)).body;
    expect(watts.last.volts).toBeLessThan(known.last.volts);
    await ask(`/sites/${siteId}/as-built/trunks/Z/survey`, SUPPLY).expect(404);
    const stranger = await test.addStranger();
    await stranger.http.post(`/api/v1${path}`).send(SUPPLY).expect(404);
  });

  it('names a supply that collapses, and figures that cannot be', async () => {
    const load = { ...SUPPLY, stationAmps: undefined, stationWatts: 500, nodes };
    const [collapse] = await wrong('/survey', load);
    expect(collapse.reason).toMatch(/^the supply collapses: /);
    expect(collapse.field).toMatch(/^\/nodes\/\d/);
    const iec = { kind: 'iec-60228', squareMillimetres: 3, conductorClass: 2 };
    expect(await wrong('/survey', { ...SUPPLY, conductor: iec, nodes })).toMatchObject([
      { field: '/conductor/squareMillimetres' },
    ]);
    const fields = async (more: object) => {
      const errors = await wrong('/survey', { ...SUPPLY, nodes, ...more });
      return errors.map(({ field }: { field: string }) => field);
    };
    expect(await fields({ conductor: { kind: 'awg' } })).toEqual(['/conductor/gauge']);
    expect(await fields({ stationAmps: undefined })).toEqual(['/stationAmps']);
    expect(await fields({ stationWatts: 3 })).toEqual(['/stationWatts']);
    expect(await fields({ celsius: 400 })).toEqual(['/celsius']);
    expect(await fields({ sourceOhms: -1 })).toEqual(['/sourceOhms']);
    expect(await fields({ nodes: [{ id: 'A1', cableMetres: -1 }] })).toEqual([
      '/nodes/0/cableMetres',
    ]);
    expect(await fields({ nodes: [...nodes, { id: 'A3', cableMetres: 1, fedFrom: 'Z' }] })).toEqual(
      ['/nodes/2/fedFrom'],
    );
    const circle = [
      { id: 'A1', cableMetres: 1, fedFrom: 'A2' },
      { id: 'A2', cableMetres: 1 },
    ];
    expect(await fields({ nodes: circle })).toEqual(['/nodes/0/fedFrom']);
  });

  it('reckons the distance to a short, and loop bridges', async () => {
    const reading = {
      conductor: MEASURED,
      loopOhms: 4.16,
      uncertaintyOhms: 0.05,
      contactOhms: 0.16,
    };
    const { body } = await ask('/survey/distance-to-short', reading).expect(200);
    expect(body).toMatchObject({ metres: expect.closeTo(100, 9), isBiasedShort: false });
    expect(body.highMetres - body.lowMetres).toBeCloseTo((4 * 0.05) / 0.04, 9);
    expect(await wrong('/survey/distance-to-short', { ...reading, contactOhms: 9 })).toMatchObject([
      { field: '/loopOhms' },
    ]);
    const murray = { kind: 'murray', ohmsP: 1000, ohmsQ: 250, loopMetres: 400 };
    expect((await ask('/survey/loop-bridge', murray).expect(200)).body).toEqual({
      metres: 80,
      ohms: null,
    });
    const varley = { kind: 'varley', ohmsP: 10, ohmsQ: 10, ohmsS: 4, loopOhms: 8, loopMetres: 400 };
    expect((await ask('/survey/loop-bridge', varley).expect(200)).body).toEqual({
      metres: 100,
      ohms: 2,
    });
    expect(await wrong('/survey/loop-bridge', { ...varley, ohmsS: 9 })).toMatchObject([
      { field: '/ohmsS' },
    ]);
    expect(await wrong('/survey/loop-bridge', { ...varley, ohmsS: undefined })).toMatchObject([
      { field: '/ohmsS' },
    ]);
  });

  it('goes through the pool with its bounds, and gives up for who has left', async () => {
    const compute = test.app.get(ComputeService);
    const leaving = new AbortController();
    const task = { file: new URL('./support/endless.worker.js', import.meta.url), errors: {} };
    const waiting = compute.whileAsked(leaving.signal, () =>
      Promise.allSettled(Array.from({ length: 400 }, () => compute.run(task, undefined))),
    );
    const siteId = await drawSite(test, [row('A', 2)]);
    const asked = [
      ask('/survey', { ...SUPPLY, nodes }),
      ask(`/sites/${siteId}/as-built/trunks/A/survey`, SUPPLY),
    ];
    for (const one of asked) {
      const busy = await one.expect(503);
      expect(busy.headers['retry-after']).toBe('2');
      expect(busy.body.type).toBe('urn:lastheard:problem:busy');
    }
    leaving.abort();
    await waiting;
    await ask('/survey', { ...SUPPLY, nodes }).expect(200);
  });

  it('reckons a trunk of 2,000 rooms drawn from the end', async () => {
    const row = Array.from({ length: 2000 }, (_, i) => ({
      id: `A${i}`,
      cableMetres: 1,
      fedFrom: i === 1999 ? null : `A${i + 1}`,
    }));
    const thin = { ...SUPPLY, stationAmps: 1e-6, nodes: row };
    const { body } = await ask('/survey', thin).expect(200);
    expect(body.stations[0]).toMatchObject({ id: 'A0', cableMetres: 2000 });
    expect(body.stations[1999]).toMatchObject({ id: 'A1999', cableMetres: 1 });
  });
});
