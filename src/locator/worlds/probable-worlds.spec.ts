import { describe, expect, it } from '@jest/globals';
import type { Place } from '../../drawing/drawn-node.js';

import { locate } from '../locate.js';
import type { LocateRequest, RequestNode, RequestObservation } from '../request/locate-request.js';
import { probableWorlds } from './probable-worlds.js';
import { worldReader } from './world-answers.js';

const station = (id: string, cableMetres: number): RequestNode => {
  return { id, kind: 'station', cableMetres };
};
const saw = (
  node: string,
  outcome: RequestObservation['outcome'],
  trunk = 'A',
): RequestObservation => {
  const informant = { id: 'caller', kind: 'office' } as const;
  return { trunk, node, function: 'announcement', outcome, informant };
};
const placeName = (place: Place) => JSON.stringify(place);

describe('worlds and the sweep', () => {
  const rooms = Array.from({ length: 40 }, (_, n) => station(`A${n + 1}`, 6 + (n % 5)));
  const request: LocateRequest = {
    trunks: [
      { id: 'A', nodes: rooms },
      { id: 'B', nodes: [station('B1', 10), station('B2', 10)] },
    ],
    exposureDays: 180,
    observations: [
      saw('A12', 'works'),
      saw('A13', 'fails'),
      saw('A20', 'fails'),
      saw('B1', 'works', 'B'),
    ],
    unmentioned: { reportRate: 0.3, functions: ['announcement'] },
  };

  const short = {
    ...request,
    trunks: request.trunks.map((t) => ({ ...t, nodes: t.nodes.slice(0, 20) })),
  };

  it('agree on the evidence and, within what is not covered, on every place', () => {
    const located = locate({ ...request, explanations: 0 });
    const found = probableWorlds(request);
    expect(found.logEvidence).toBe(located.logEvidence);
    expect(found.worlds.length).toBe(200);
    expect(found.uncovered).toBeLessThan(0.01);
    const { trunks, exposureDays } = request;
    const { places } = locate({ trunks, exposureDays, explanations: 0 });
    const prior = new Map(places.map(({ place, probability }) => [placeName(place), probability]));
    for (const { place, probability } of located.places) {
      const name = placeName(place);
      const named = found.worlds
        .filter(({ faults }) => faults.some((fault) => placeName(fault.place) === name))
        .reduce((sum, world) => sum + world.probability, 0);
      // What a world does not name may still be faulty, without making a difference: as often as it ever is.
      expect([name, named < probability + 1e-9]).toEqual([name, true]);
      const left = probability - named - found.uncovered - (prior.get(name) ?? 0);
      expect([name, left < 0]).toEqual([name, true]);
    }
  });

  it('agree with the causes once complaints of nothing are rare', () => {
    const told = { ...short, observations: [saw('A12', 'fails')], explanations: 0 };
    for (const posed of [
      told,
      { ...told, falseAlarmRatio: 0.5 },
      { ...told, begunBy: 'round' as const },
    ]) {
      const { troubles = [], logEvidence } = locate(posed);
      const { worlds, uncovered, logEvidence: same } = probableWorlds(posed);
      expect(same).toBeCloseTo(logEvidence, 12);
      const chanceOf = (kind: string) =>
        (troubles[0]?.causes ?? []).reduce(
          (sum, { cause, probability }) => sum + (cause.kind === kind ? probability : 0),
          0,
        );
      const read = worldReader(posed);
      const quiet = worlds
        .filter((world) => read(world).condition('A', 'A12', 'announcement') === 'good')
        .reduce((sum, { probability }) => sum + probability, 0);
      expect(quiet).toBeLessThan(chanceOf('nothing') + 1e-9);
      expect(quiet).toBeGreaterThan(chanceOf('nothing') - uncovered - 1e-9);
      expect(uncovered).toBeLessThan(0.02);
    }
  });

  it('are the same whatever the order of the request', () => {
    const turned = {
      ...short,
      trunks: [...short.trunks].reverse(),
      observations: [...(short.observations ?? [])].reverse(),
    };
    const [one, other] = [short, turned].map((posed) => probableWorlds(posed).worlds);
    expect(other?.map(({ faults }) => faults)).toEqual(one?.map(({ faults }) => faults));
  });

  it('refuse what locate refuses', () => {
    expect(() => probableWorlds({ trunks: [] })).toThrow('exposureDays');
  });
});
