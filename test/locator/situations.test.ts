import { describe, expect, it } from '@jest/globals';
import {
  intermittent,
  locate,
  type LocateRequest,
  officeChecksAboutCauses,
  technicianChecksAboutCauses,
} from '#app/locator/index.js';

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

  it('two contradict each other about Room 109: it is tried there again, and once one is outvoted no more', () => {
    const by = (id: string) => ({ informant: { id, kind: 'office' as const } });
    const told = [
      ...ONLY_109.map((one) => ({ ...one, ...by('Mara') })),
      { ...said('109', 'announcement', 'works'), ...by('Odo') },
    ];
    const posed = (observations: LocateRequest['observations']): LocateRequest => {
      return { trunks: [{ id: 'A', nodes }], exposureDays: 91, observations };
    };
    const again = { kind: 'function', trunk: 'A', node: '109', function: 'announcement' };
    const [first] = officeChecksAboutCauses({ request: posed(told) });
    expect(first!.action).toEqual(again);
    expect(first!.informationBits).toBeGreaterThan(0.5);
    const third = { ...said('109', 'announcement', 'fails'), ...by('Ilvo') };
    const asked = officeChecksAboutCauses({ request: posed([...told, third]) });
    expect(asked.map(({ action }) => action)).not.toContainEqual(again);
    const { causes } = answer({ observations: told });
    expect(causes[0]!.cause).toEqual({ kind: 'nothing' });
    expect(causes[1]!.cause).toMatchObject({ kind: 'station', node: '109' });
  });

  it('bell heard everywhere, announcement nowhere: nobody is sent along the line, the office looks at the microphone', () => {
    const request: LocateRequest = {
      trunks: [{ id: 'A', nodes }],
      exposureDays: 91,
      observations: ROOMS.flatMap((room) => [
        said(room, 'bell', 'works'),
        said(room, 'announcement', 'fails'),
      ]),
    };
    expect(technicianChecksAboutCauses({ request }, 2)).toEqual([]);
    const asked = officeChecksAboutCauses({ request }).map(({ action }) => action);
    expect(asked).toEqual([{ kind: 'head-end', setting: 'microphone' }]);
  });

  it('105 to 108 silent, all behind them heard: the drawing, a branch at 104 or the end of the line, and how to tell', () => {
    const { drawing } = answer({
      observations: ROOMS.flatMap((room, i) =>
        (['announcement', 'bell'] as const).map((name) =>
          said(room, name, i >= 4 && i <= 7 ? 'fails' : 'works'),
        ),
      ),
    });
    expect(drawing.asDrawn).toBeLessThan(0.1);
    const [end, branch] = drawing.alternatives;
    expect([end!.kind, branch!.kind].sort()).toEqual(['branch', 'end']);
    for (const { from, to, probability, tellApart } of [end!, branch!]) {
      expect([from, to]).toEqual(['105', '108']);
      expect(probability).toBeGreaterThan(0.4);
      expect(tellApart.look).toBe('cables-at-node');
    }
  });

  it('all silent, all heard after a reset, all silent again: head-end supply or amplifier, coming and going', () => {
    const { parts, spans, nothing } = intermittent({
      trunks: [{ id: 'A', nodes }],
      exposureDays: 91,
      observations: (['fails', 'works', 'fails'] as const).flatMap((outcome, sitting) =>
        ROOMS.map((room) => ({ ...said(room, 'announcement', outcome), sitting })),
      ),
    });
    expect(nothing).toBeLessThan(0.01);
    expect(parts[0]!.place).toEqual({ kind: 'head-end' });
    expect(parts[0]!.probability).toBeGreaterThan(0.8);
    const { power = 0, amplifier = 0 } = parts[0]!.modes;
    expect(power + amplifier).toBeGreaterThan(0.5);
    expect(spans[0]!.probability).toBeLessThan(0.1);
  });

  it('Room 109 bridged over: nothing is said or asked of it', () => {
    const bridged = nodes.map((node) => (node.id === '109' ? { ...node, isOut: true } : node));
    const request: LocateRequest = {
      trunks: [{ id: 'A', nodes: bridged }],
      exposureDays: 91,
      observations: [said('108', 'announcement', 'works'), said('110', 'announcement', 'fails')],
    };
    const found = answer(request);
    expect(found.of('109')).toMatchObject({ probability: 0, components: [] });
    expect(found.predictions.some(({ node }) => node === '109')).toBe(false);
    const asked = [
      ...officeChecksAboutCauses({ request }),
      ...technicianChecksAboutCauses({ request }, 2),
    ].filter(({ action }) => 'function' in action && action.node === '109');
    expect(asked).toEqual([]);
  });

  it('terminals opened and found sound: the answer moves on from them', () => {
    const observations = ROOMS.map((room, i) =>
      said(room, 'announcement', i < 12 ? 'works' : 'fails'),
    );
    const place = { kind: 'span', trunk: 'A', from: '112', to: '113' } as const;
    const joint = (causes: ReturnType<typeof answer>['causes'], component: string) =>
      causes.find(
        ({ cause }) => cause.kind === 'span' && cause.to === '113' && cause.component === component,
      )?.probability ?? 0;
    const before = answer({ observations });
    const after = answer({ observations, looks: [{ place, part: 'junction-in', seen: 'sound' }] });
    expect(joint(before.causes, 'junction-in')).toBeGreaterThan(0.4);
    expect(joint(after.causes, 'junction-in')).toBeLessThan(0.1);
    expect(joint(after.causes, 'junction-out')).toBeGreaterThan(0.7);
  });

  it('one line of two silent: the fuse is likelier than the terminals beside it', () => {
    const second = { id: 'B', nodes: [{ id: '201', kind: 'station' as const, cableMetres: 9 }] };
    const { causes } = answer({
      trunks: [{ id: 'A', nodes }, second],
      observations: [
        ...ROOMS.map((room) => said(room, 'announcement', 'fails')),
        { ...said('201', 'announcement', 'works'), trunk: 'B' },
      ],
    });
    const port = causes.find(({ cause }) => cause.kind === 'port')!.probability;
    const terminals = causes.filter(({ cause }) => cause.kind === 'span' && cause.to === '101');
    expect(port).toBeGreaterThan(2 * terminals[0]!.probability);
    expect(causes[0]!.cause.kind).toBe('short');
  });
});
