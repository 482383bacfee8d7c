import { describe, expect, it } from '@jest/globals';
import { Drawing } from '../drawing/drawing.js';
import type { CheckAction } from '../locator/index.js';
import { type Mark, trunkInText, wordsIn } from './index.js';

const EN = wordsIn('en');
const name = (_trunk: string, node: string) => node.replace('A', 'Room ');
const span = { kind: 'span', trunk: 'A', from: 'A12', to: 'A13' } as const;

describe('places in English', () => {
  it.each([
    [EN.place(span, name), 'between Room 12 and Room 13 on trunk A'],
    [EN.place({ ...span, from: null }, name), 'between the head-end and Room 13 on trunk A'],
    [
      EN.place({ kind: 'station', trunk: 'A', node: 'A3' }, name),
      'the station in Room 3 on trunk A',
    ],
    [EN.place({ kind: 'port', trunk: 'B' }, name), 'the head-end’s output for trunk B'],
    [EN.place({ kind: 'head-end' }, name), 'the head-end'],
    [EN.component('junction-out', span, name), 'terminals at Room 12 OUT'],
    [EN.component('cable', span, name), 'cable'],
    [EN.component('junction-in', span, name), 'terminals at Room 13 IN'],
    [
      EN.component('junction-out', { ...span, from: null }, name),
      'terminals at the head-end, trunk A',
    ],
    [EN.component('head-end', { kind: 'head-end' }, name), 'head-end'],
    [
      EN.stretch(
        {
          trunk: 'A',
          from: null,
          to: 'A2',
          spans: [1, 2].map(() => ({ from: null, to: 'A2', share: 0.5 })),
        },
        name,
      ),
      'between the head-end and Room 2 on trunk A, 2 spans',
    ],
    [EN.withChance('the head-end', 0.834), 'the head-end, 83 %'],
  ])('%s', (said, words) => {
    expect(said).toBe(words);
  });

  it('say of a bad joint where, how big and how likely', () => {
    const joint = {
      place: { ...span, from: 'A8', to: 'A9' },
      probability: 0.719,
      ohms: { median: 3.04, low: 1.42, high: 12.7 },
    };
    const size = 'about 3 ohm (1.4 to 13), 72 %';
    expect(EN.joint({ ...joint, component: 'junction-in' }, name)).toBe(
      `a bad joint in the terminals at Room 9 IN on trunk A, ${size}`,
    );
    expect(EN.joint({ ...joint, component: 'cable' }, name)).toBe(
      `a bad joint in the cable between Room 8 and Room 9 on trunk A, ${size}`,
    );
    const first = {
      ...joint,
      place: { ...joint.place, from: null },
      component: 'junction-out',
    } as const;
    expect(EN.joint(first, name)).toBe(
      `a bad joint in the terminals at the head-end, trunk A, ${size}`,
    );
  });
});

describe('a check in English', () => {
  it.each<[CheckAction, string]>([
    [
      { kind: 'function', trunk: 'A', node: 'A9', function: 'lamp' },
      'look whether the lamp in Room 9 is lit',
    ],
    [
      { kind: 'function', trunk: 'A', node: 'A9', function: 'announcement' },
      'make an announcement and have somebody listen in Room 9',
    ],
    [
      { kind: 'volume-knob', trunk: 'A', node: 'A9', function: 'bell' },
      'turn the volume knob in Room 9 up and listen for the bell again',
    ],
    [
      { kind: 'head-end', setting: 'power' },
      'look whether the cabinet in the office is switched on, with its lamp lit',
    ],
    [{ kind: 'supply-volts', trunk: 'A', node: 'A9' }, 'measure the supply voltage in Room 9'],
    [
      { kind: 'continuity', trunk: 'A', from: null, to: 'A9' },
      'isolate trunk A and measure every core for continuity from the head-end to Room 9',
    ],
    [
      { kind: 'open-junction', trunk: 'A', from: 'A8', to: 'A9', component: 'junction-out' },
      'open and look at the terminals at Room 8 OUT',
    ],
    [
      { kind: 'isolation', trunk: 'A', node: 'A9', function: 'lamp' },
      'disconnect everything past Room 9: does the lamp come back there?',
    ],
  ])('%j', (action, words) => {
    expect(EN.check(action, name)).toBe(words);
  });
});

describe('a trunk in text', () => {
  it('shows a tee with its branch, what was heard, and where to look', () => {
    const node = (
      id: string,
      fedFrom: string | null,
      kind: 'station' | 'junction-box' = 'station',
    ) => ({
      id,
      kind,
      fedFrom,
      cableMetres: 9.5,
      name: kind === 'station' ? `Room ${id}` : null,
    });
    const nodes = [node('1', null), node('T', '1', 'junction-box'), node('2', 'T'), node('3', 'T')];
    const marks: Record<string, Mark> = { '1': 'heard', '2': 'silent', '3': 'not checked' };
    const markOf = (code: string) => marks[code] ?? 'not checked';
    expect(trunkInText(new Drawing([{ id: 'A', nodes }]), 'A', { markOf, pointAt: '2' }, EN)).toBe(
      [
        'head-end, trunk A',
        '  |   9.5 m  (o) 1     Room 1, heard',
        '  |   9.5 m  -+- T     junction box',
        '  |   #   9.5 m  (x) 2     Room 2, silent   <== look here first',
        '  |   9.5 m  ( ) 3     Room 3',
      ].join('\n'),
    );
  });
});
