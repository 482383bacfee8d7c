import { describe, expect, it } from '@jest/globals';
import { intermittent, locate, type SittingsRequest } from '../locator/index.js';
import { predictedPlaces, suspects } from './place-chances.js';

const said = (sitting: number, node: string, outcome: 'works' | 'fails') => ({
  sitting,
  trunk: 'A',
  node,
  function: 'announcement' as const,
  outcome,
  informant: { kind: 'technician' as const },
});
const request: SittingsRequest = {
  trunks: [
    {
      id: 'A',
      nodes: [
        { id: '1', kind: 'station', cableMetres: 5 },
        { id: '2', kind: 'station', cableMetres: 5 },
        { id: '3', kind: 'station', cableMetres: 5 },
        { id: '4', kind: 'station', cableMetres: 5 },
      ],
    },
  ],
  exposureDays: 90,
  observations: (['works', 'fails', 'works'] as const).flatMap((outcome, sitting) =>
    ['2', '3', '4'].map((node) => said(sitting, node, outcome)),
  ),
};
const plain = {
  ...request,
  observations: request.observations.map(({ sitting: _, ...rest }) => rest),
};

describe('what may be the matter', () => {
  const result = locate(plain);

  it('is what the locator says where all was so at one time', () => {
    const list = suspects(result, null);
    // Ordered by what they account for, as the locator orders them.
    expect(list.map(({ accounts }) => accounts)).toEqual(
      result.places.map(({ accounts }) => accounts),
    );
    expect(list[0]!.accounts).toBeGreaterThan(0);
    expect(new Set(list.map(({ place }) => place))).toEqual(
      new Set(result.places.map(({ place }) => place)),
    );
    expect(list.some(({ intermittent: passing }) => passing)).toBe(false);
  });

  it('weighs what stays against what comes and goes', () => {
    const passing = intermittent(request);
    const list = suspects(result, passing);
    expect(list[0]).toMatchObject({ intermittent: true, place: passing.parts[0]!.place });
    const headEnd = list.find((one) => one.place.kind === 'head-end' && !one.intermittent)!;
    const staying = result.places.find(({ place }) => place.kind === 'head-end')!;
    expect(headEnd.probability).toBeCloseTo(staying.probability * passing.nothing, 12);
  });

  it('goes by how likely a place is faulty where nothing was reported', () => {
    const heard = { ...plain, observations: plain.observations.slice(0, 3) };
    const list = suspects(locate(heard), null);
    for (const { accounts, probability } of list) expect(accounts).toBe(probability);
    const chances = list.map(({ probability }) => probability);
    expect(chances).toEqual([...chances].sort((a, b) => b - a));
  });

  it('names each place once when somebody is sent', () => {
    const list = suspects(result, intermittent(request));
    const places = predictedPlaces(list);
    expect(places).toHaveLength(result.places.length);
    const sum = (all: { probability: number }[]) =>
      all.reduce((total, { probability }) => total + probability, 0);
    const accounted = list.reduce((total, { accounts }) => total + accounts, 0);
    expect(sum(places)).toBeCloseTo(accounted, 12);
    expect(places[0]!.probability).toBeGreaterThanOrEqual(list[0]!.accounts);
  });
});
