import { describe, expect, it } from '@jest/globals';
import type { ProbableWorld, WorldFault } from '../locator/worlds/index.js';
import { USUAL_WORK_TIMES } from '../work-times/work-times.js';
import { walkParts } from './walk-parts.js';

const nodes = [
  { node: 'A1', cableMetres: 12, cableType: 'four-core 0.75', unitModel: 'RS-2' },
  { node: 'A2', cableMetres: 18.5, cableType: null, unitModel: null },
];
const drawing = { trunks: [{ trunk: 'A', nodes }] };
const span = (to: string, component: WorldFault['component'], mode = 'parted'): WorldFault => {
  return { place: { kind: 'span', trunk: 'A', from: null, to }, component, mode };
};
const station = (node: string, mode: string): WorldFault => {
  return { place: { kind: 'station', trunk: 'A', node }, component: 'station', mode };
};
const world = (probability: number, ...faults: WorldFault[]): ProbableWorld => {
  return { faults, probability, logWeight: Math.log(probability) };
};

describe('parts to carry', () => {
  it('says how likely each is needed if something is at fault, and takes what is worth it', () => {
    const { parts, secondTripChance, neededTogether } = walkParts(
      [
        world(0.2),
        world(0.5, span('A1', 'junction-in')),
        world(0.2, span('A2', 'cable')),
        world(0.08, station('A1', 'volume-down')),
        world(0.016, station('A1', 'speaker')),
        world(0.004, { place: { kind: 'head-end' }, component: 'head-end', mode: 'power' }),
      ],
      drawing,
      USUAL_WORK_TIMES,
    );
    expect(parts).toEqual([
      { id: 'connectors', neededChance: expect.closeTo(0.875), isCarried: true },
      { id: '20 m of trunk cable', neededChance: expect.closeTo(0.25), isCarried: true },
      { id: 'station unit RS-2', neededChance: expect.closeTo(0.02), isCarried: false },
      {
        id: 'power supply for the head-end',
        neededChance: expect.closeTo(0.005),
        isCarried: false,
      },
    ]);
    expect(secondTripChance).toBeCloseTo(0.025, 12);
    expect(neededTogether).toEqual([
      { parts: ['connectors'], chance: expect.closeTo(0.625) },
      { parts: ['20 m of trunk cable', 'connectors'], chance: expect.closeTo(0.25) },
      { parts: ['station unit RS-2'], chance: expect.closeTo(0.02) },
      { parts: ['power supply for the head-end'], chance: expect.closeTo(0.005) },
    ]);
  });

  it('takes a fuse, and a length of the cable that is there', () => {
    const port: WorldFault = {
      place: { kind: 'port', trunk: 'A' },
      component: 'port',
      mode: 'no-output',
    };
    const { parts } = walkParts(
      [world(0.5, port), world(0.3, span('A1', 'cable'))],
      drawing,
      USUAL_WORK_TIMES,
    );
    expect(parts.map(({ id }) => id)).toEqual([
      'fuse for an output',
      '15 m of four-core 0.75 cable',
      'connectors',
    ]);
  });

  it('takes nothing for what a hand sets right, in a room or at the head-end', () => {
    const settings = ['volume-down', 'bell-setting', 'announcement-setting', 'music-setting'];
    const ofGroup = ['group-off', 'group-bell-off', 'group-announcement-off'];
    const byHand = [
      ...settings.map((mode) => station('A1', mode)),
      ...ofGroup.map((mode): WorldFault => {
        const place = { kind: 'head-end' } as const;
        return { place, component: 'head-end', mode: `${mode}:the upper floor` };
      }),
    ];
    const worlds = byHand.map((fault) => world(0.1, fault));
    expect(walkParts(worlds, drawing, USUAL_WORK_TIMES)).toEqual({
      parts: [],
      secondTripChance: 0,
      neededTogether: [],
    });
    const { parts } = walkParts([...worlds, world(0.3, station('A1', 'dead'))], drawing, {
      secondTrip: 90,
    });
    expect(parts).toEqual([
      { id: 'station unit RS-2', neededChance: expect.closeTo(0.3), isCarried: true },
    ]);
  });
});
