import { describe, expect, it } from '@jest/globals';
import { locate, type LocateRequest } from '#app/locator/index.js';

// What somebody who does this for a living says of twenty rooms in a row.

const ROOMS = Array.from({ length: 20 }, (_, i) => String(101 + i));
const nodes = ROOMS.map((id) => ({ id, kind: 'station' as const, cableMetres: 9 }));
const said = (node: string, name: 'announcement' | 'bell', outcome: 'works' | 'fails') => ({
  trunk: 'A',
  node,
  function: name,
  outcome,
});

function answer(request: Partial<LocateRequest>) {
  const found = locate({
    trunks: [{ id: 'A', nodes }],
    exposureDays: 91,
    explanations: 0,
    ...request,
  });
  const of = (node: string) =>
    found.places.find(({ place }) => place.kind === 'station' && place.node === node)!;
  const causes = found.troubles[0]!.causes;
  const causedBy = (kind: string) =>
    causes.reduce(
      (sum, { cause, probability }) => (cause.kind === kind ? sum + probability : sum),
      0,
    );
  return { ...found, of, causes, causedBy };
}

const ONLY_109 = [
  said('108', 'announcement', 'works'),
  said('109', 'announcement', 'fails'),
  said('110', 'announcement', 'works'),
];

describe('a practitioner believes the answer', () => {
  it('announcement silent in Room 109 only: Room 109, and nothing unrelated', () => {
    const { places, of } = answer({ observations: ONLY_109 });
    expect(of('109').accounts).toBeGreaterThan(0.9);
    expect(places[0]!.place).toEqual({ kind: 'station', trunk: 'A', node: '109' });
    expect(places[1]!.accounts).toBeLessThan(0.05);
    expect(of('120').accounts).toBeLessThan(0.001);
  });

  it('the same after "head-end on, volume up": stays above 80 %', () => {
    const looked = { seen: 'sound' as const, informant: { kind: 'office' as const } };
    const { of } = answer({
      observations: ONLY_109,
      looks: [
        { ...looked, place: { kind: 'head-end' }, part: 'power' },
        { ...looked, place: { kind: 'station', trunk: 'A', node: '109' }, part: 'volume-down' },
      ],
    });
    expect(of('109').accounts).toBeGreaterThan(0.8);
  });

  it('bell silent in 109 only, announcement fine there: its bell setting, then nothing', () => {
    const { causes } = answer({
      observations: [
        said('108', 'bell', 'works'),
        said('109', 'announcement', 'works'),
        said('109', 'bell', 'fails'),
        said('110', 'bell', 'works'),
      ],
    });
    expect(causes.slice(0, 2).map(({ cause }) => cause)).toEqual([
      { kind: 'station', trunk: 'A', node: '109', mode: 'bell-setting' },
      { kind: 'nothing' },
    ]);
  });

  it('bell heard everywhere, announcement nowhere: the head-end’s microphone', () => {
    const { causes } = answer({
      observations: ROOMS.flatMap((room) => [
        said(room, 'bell', 'works'),
        said(room, 'announcement', 'fails'),
      ]),
    });
    expect(causes[0]!.cause).toEqual({ kind: 'head-end', mode: 'microphone' });
    expect(causes[0]!.probability).toBeGreaterThan(0.99);
  });

  it('ground floor silent for announcements, the rest heard: the group’s setting before the cable', () => {
    const floors = nodes.map((node, i) => ({
      ...node,
      groups: [i < 10 ? 'first floor' : 'ground floor'],
    }));
    const { causes, causedBy } = answer({
      trunks: [{ id: 'A', nodes: floors }],
      observations: ROOMS.map((room, i) => said(room, 'announcement', i < 10 ? 'works' : 'fails')),
    });
    expect(causes[0]!.cause).toEqual({ kind: 'head-end', mode: 'group-off:ground floor' });
    expect(causedBy('head-end')).toBeGreaterThan(0.6);
  });

  it('all rooms of one line silent: one entry says a short somewhere on it, with its places', () => {
    const { causes } = answer({
      observations: ROOMS.map((room) => said(room, 'announcement', 'fails')),
    });
    const shorts = causes.filter(({ cause }) => cause.kind === 'short');
    expect(shorts).toHaveLength(1);
    expect(shorts[0]!.probability).toBeGreaterThan(0.1);
    expect(shorts[0]!.within!.length).toBeGreaterThan(1);
  });

  it('two people contradict each other: said', () => {
    const { againstTheRest } = answer({
      observations: [...ONLY_109, said('109', 'announcement', 'works')],
    });
    expect(againstTheRest.map(({ observation }) => observation)).toContain(1);
  });
});
