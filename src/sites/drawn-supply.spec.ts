import { describe, expect, it } from '@jest/globals';
import { readConductor, readLoad, readNodes } from './drawn-supply.js';

describe('a supply as it is asked about', () => {
  it('reads what the kind of conductor needs, and names what is missing', () => {
    expect(readConductor({ kind: 'awg', gauge: 18, ohmsPerKm: 3 })).toEqual({
      kind: 'awg',
      gauge: 18,
    });
    const missing = [
      readConductor({ kind: 'awg' }),
      readConductor({ kind: 'measured', ohmsPerKm: 20 }),
      readConductor({ kind: 'measured' }),
      readConductor({ kind: 'iec-60228', conductorClass: 2 }),
      readConductor({ kind: 'iec-60228', squareMillimetres: 1 }),
    ];
    expect(missing.map((one) => ('field' in one ? one.field : ''))).toEqual([
      '/conductor/gauge',
      '/conductor/celsius',
      '/conductor/ohmsPerKm',
      '/conductor/squareMillimetres',
      '/conductor/conductorClass',
    ]);
  });

  it('takes amps or watts, not both and not neither', () => {
    expect(readLoad({ stationWatts: 2 })).toEqual({ kind: 'watts', watts: 2 });
    expect(readLoad({ stationAmps: 1, stationWatts: 2 })).toMatchObject({ field: '/stationWatts' });
    expect(readLoad({})).toMatchObject({ field: '/stationAmps' });
  });

  it('feeds each node from the one before it unless it says otherwise', () => {
    const load = { kind: 'amps', amps: 0.1 } as const;
    const station = { kind: 'station', cableMetres: 5 } as const;
    const read = readNodes(
      [
        { ...station, id: 'a' },
        { ...station, id: 't', kind: 'junction-box' },
        { ...station, id: 'b' },
        { ...station, id: 'c', fedFrom: 't' },
        { ...station, id: 'd', fedFrom: null },
      ],
      load,
    );
    expect('nodes' in read && read.nodes.map(({ parent }) => parent)).toEqual([
      null,
      0,
      1,
      1,
      null,
    ]);
    expect('nodes' in read && read.nodes[1]).toEqual({ parent: 0, cableMetres: 5 });
    const wrong = readNodes(
      [
        { ...station, id: 'a' },
        { ...station, id: 'b', fedFrom: 'z' },
        { ...station, id: 'a' },
      ],
      load,
    );
    expect('wrong' in wrong && wrong.wrong.map(({ field }) => field)).toEqual([
      '/nodes/1/fedFrom',
      '/nodes/2/id',
    ]);
  });
});
