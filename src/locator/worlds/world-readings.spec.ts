import { describe, expect, it } from '@jest/globals';
import { locate } from '../locate.js';
import type { LocateRequest, RequestReading } from '../request/locate-request.js';
import { probableWorlds } from './probable-worlds.js';

const ELECTRICAL = { sourceVolts: 24, sourceOhms: 0.2, stationAmps: 0.08, coreOhmsPerKm: 18.1 };

const node = (id: string, fedFrom: string | null) => {
  return { id, kind: 'station', cableMetres: 20, fedFrom } as const;
};
const trunk = {
  id: 'A',
  nodes: [node('1', null), node('2', '1'), node('3', '2'), node('4', '3'), node('t', '2')],
};
const silent = ['1', '2', '3', '4', 't'].map((id) => {
  return { trunk: 'A', node: id, function: 'announcement', outcome: 'fails' } as const;
});
const works = (count: number) =>
  silent.map((one, n) => ({ ...one, outcome: n < count ? 'works' : 'fails' }) as const);
const volts = (at: string, read: number): RequestReading => {
  return { kind: 'supply-volts', trunk: 'A', node: at, volts: read, uncertaintyVolts: 0.05 };
};
const loop = (core: 'supply' | 'speech', ohms: number): RequestReading => {
  return { kind: 'loop-ohms', trunk: 'A', core, ohms, uncertaintyOhms: 0.03 };
};
const path = (from: string | null, to: string, passes: boolean): RequestReading => {
  return { kind: 'continuity', trunk: 'A', from, to, cores: ['return'], passes };
};

/** Chances so small that two faults at once hardly ever are: then leaving out what is not named changes nothing. */
const rare = (observations: LocateRequest['observations'], readings: RequestReading[]) => {
  const site = { trunks: [trunk], exposureDays: 1e-4, electrical: ELECTRICAL };
  return { ...site, observations, readings, explanations: 0 };
};

describe('readings in worlds', () => {
  it.each<[string, LocateRequest['observations'], RequestReading[]]>([
    ['dead and full volts', works(2).slice(0, 4), [volts('2', 23.6), volts('3', 0.1)]],
    [
      'volts between, for a bad joint',
      silent.map((o) => ({ ...o, outcome: 'weak' }) as const),
      [volts('4', 17)],
    ],
    ['a stretch that is open', works(2).slice(0, 4), [path('2', '3', false)]],
    [
      'a stretch that gets through, and return tells parted',
      works(2).slice(0, 4),
      [path('2', '3', true)],
    ],
    ['a loop to a short', silent, [loop('supply', 1.5)]],
    ['a loop to a short behind a tee', silent, [loop('supply', 2.17)]],
    ['loops of two cores', silent, [loop('speech', 0.75), loop('supply', 2.1)]],
    ['all together', silent, [loop('speech', 1.4), volts('2', 23.5), path(null, '2', true)]],
  ])('agree with the sweep: %s', (_, observations, readings) => {
    const request = rare(observations, readings);
    const { places } = locate(request);
    const { worlds, uncovered } = probableWorlds(request);
    expect(uncovered).toBeLessThan(1e-6);
    for (const { place, probability } of places) {
      const named = worlds
        .filter(({ faults }) =>
          faults.some((fault) => JSON.stringify(fault.place) === JSON.stringify(place)),
        )
        .reduce((sum, world) => sum + world.probability, 0);
      expect([place, Math.abs(named - probability) < 1e-6]).toEqual([place, true]);
    }
  });

  it('move what is planned with', () => {
    const heard = works(1).slice(0, 4);
    const request = { ...rare(heard, []), exposureDays: 90 };
    const mostly = (posed: LocateRequest) => probableWorlds(posed).worlds[0]?.faults[0]?.place;
    expect(mostly(request)).toMatchObject({ kind: 'span', to: '2' });
    const through = { ...path('1', '2', true), cores: ['supply', 'return', 'speech'] };
    const read = { ...request, readings: [through as RequestReading] };
    expect(mostly(read)).not.toMatchObject({ kind: 'span', to: '2' });
  });
});
