import { describe, expect, it } from '@jest/globals';
import type { CheckAction } from '../locator/index.js';
import { checkInWords } from './check-in-words.js';

const say = (action: CheckAction) =>
  checkInWords(action, (_trunk, node) => node.replace('A', 'Room '));

describe('a check in words', () => {
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
      'look whether the head-end is switched on, with its lamp lit',
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
    expect(say(action)).toBe(words);
  });
});
