import { describe, expect, it } from '@jest/globals';
import { InvalidLocateRequest, type RequestError } from './errors.js';
import { readRequest } from './read-request.js';

const ELECTRICAL = { sourceVolts: 24, sourceOhms: 0.2, stationAmps: 0.08, coreOhmsPerKm: 18.1 };
const VOLTS = { kind: 'supply-volts', trunk: 'A', node: 'A2', volts: 23, uncertaintyVolts: 0.05 };
const LOOP = { kind: 'loop-ohms', trunk: 'A', core: 'speech', ohms: 0.4, uncertaintyOhms: 0.05 };
const PATH = {
  kind: 'continuity',
  trunk: 'A',
  from: 'A1',
  to: 'A2',
  cores: ['supply'],
  passes: true,
};

function errorsOf(readings: unknown, electrical?: unknown): string[] {
  return refusals(readings, electrical).map(({ pointer }) => pointer);
}

function refusals(readings: unknown, electrical: unknown = ELECTRICAL): readonly RequestError[] {
  const nodes = [
    { id: 'A1', kind: 'station', cableMetres: 12 },
    { id: 'A2', kind: 'station', cableMetres: 8 },
    { id: 'A3', kind: 'junction-box', cableMetres: 8, fedFrom: 'A1' },
  ];
  try {
    const supply = electrical === null ? {} : { electrical };
    readRequest({ trunks: [{ id: 'A', nodes }], exposureDays: 1, ...supply, readings });
    return [];
  } catch (error) {
    if (!(error instanceof InvalidLocateRequest)) throw error;
    return error.errors;
  }
}

describe('readings of a request', () => {
  it('are taken as they should be, a box and the port among the places', () => {
    const readings = [VOLTS, { ...VOLTS, node: 'A3' }, LOOP, PATH, { ...PATH, from: null }];
    expect(errorsOf(readings)).toEqual([]);
    expect(errorsOf([{ ...PATH, from: undefined }], null)).toEqual([]);
  });

  it('may be a little below 0: that is a meter, not an error', () => {
    expect(errorsOf([{ ...VOLTS, volts: -0.01 }])).toEqual([]);
  });

  it.each([
    ['no uncertainty', { ...VOLTS, uncertaintyVolts: undefined }, '/uncertaintyVolts'],
    ['an uncertainty of 0', { ...VOLTS, uncertaintyVolts: 0 }, '/uncertaintyVolts'],
    ['an uncertainty below 0', { ...LOOP, uncertaintyOhms: -0.1 }, '/uncertaintyOhms'],
    ['an uncertainty that is no number', { ...LOOP, uncertaintyOhms: NaN }, '/uncertaintyOhms'],
    ['volts that are no number', { ...VOLTS, volts: Infinity }, '/volts'],
    ['volts beyond reason, leads crossed', { ...VOLTS, volts: -36.1 }, '/volts'],
    ['volts beyond reason', { ...VOLTS, volts: 36.1 }, '/volts'],
    ['ohms below 0', { ...LOOP, ohms: -0.001 }, '/ohms'],
    ['ohms beyond the trunk', { ...LOOP, ohms: 1.2 }, '/ohms'],
    ['the loop of return with itself', { ...LOOP, core: 'return' }, '/core'],
    ['an unknown trunk', { ...LOOP, trunk: 'B' }, '/trunk'],
    ['an unknown node', { ...VOLTS, node: 'A9' }, '/node'],
    ['no cores', { ...PATH, cores: [] }, '/cores'],
    ['a core twice', { ...PATH, cores: ['supply', 'supply'] }, '/cores/1'],
    ['an answer that is none', { ...PATH, passes: 'yes' }, '/passes'],
    ['a path the wrong way', { ...PATH, from: 'A2', to: 'A1' }, '/from'],
    ['a path between branches', { ...PATH, from: 'A3', to: 'A2' }, '/from'],
    ['a path of nothing', { ...PATH, to: 'A1' }, '/from'],
    ['an unknown kind', { ...PATH, kind: 'smell' }, '/kind'],
    ['a field of another kind', { ...LOOP, node: 'A1' }, '/node'],
    ['an unknown field', { ...PATH, colour: 'red' }, '/colour'],
  ])('are refused with %s', (_, reading, pointer) => {
    expect(errorsOf([VOLTS, reading])).toEqual([`/readings/1${pointer}`]);
  });

  it.each([
    [VOLTS, ['kind', 'trunk', 'node', 'volts', 'uncertaintyVolts']],
    [LOOP, ['trunk', 'core', 'ohms', 'uncertaintyOhms']],
    [PATH, ['trunk', 'to', 'cores', 'passes']],
  ])('are told what is missing of %j', (reading, fields) => {
    for (const field of fields)
      expect(refusals([{ ...reading, [field]: undefined }])).toEqual([
        { pointer: `/readings/0/${field}`, reason: 'is missing' },
      ]);
  });

  it('are refused without the supply that they are compared with, or a wrong one', () => {
    expect(errorsOf([VOLTS, LOOP], null)).toEqual(['/electrical']);
    expect(errorsOf([VOLTS], { ...ELECTRICAL, sourceVolts: 0 })).toEqual([
      '/electrical/sourceVolts',
    ]);
    expect(errorsOf([], { ...ELECTRICAL, celsius: 900, wires: 4 })).toEqual([
      '/electrical/wires',
      '/electrical/celsius',
    ]);
  });

  it('are refused beyond their number', () => {
    expect(errorsOf(new Array(101).fill(VOLTS))).toEqual(['/readings']);
    expect(errorsOf(new Array(7).fill(LOOP))).toEqual(['/readings/6']);
    expect(errorsOf(new Array(25).fill(VOLTS))).toEqual(['/readings/24']);
  });
});
