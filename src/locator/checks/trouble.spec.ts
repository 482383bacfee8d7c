import { describe, expect, it } from '@jest/globals';
import { isAbout, troubleOf } from './trouble.js';

const saw = (trunk: string, name: 'lamp' | 'bell' | 'room-call', outcome: 'works' | 'fails') => {
  return { trunk, node: `${trunk}1`, function: name, outcome };
};
const of = (...observations: ReturnType<typeof saw>[]) =>
  troubleOf({ trunks: [], exposureDays: 1, observations });

describe('the trouble that checks are about', () => {
  it('is on the trunks where something was missed', () => {
    const trouble = of(saw('A', 'bell', 'fails'), saw('B', 'bell', 'works'));
    const volts = { kind: 'supply-volts', node: 'x' } as const;
    expect(isAbout(trouble, { ...volts, trunk: 'A' })).toBe(true);
    expect(isAbout(trouble, { ...volts, trunk: 'B' })).toBe(false);
  });

  it('is of functions that need no other cores than those missed', () => {
    const look = { kind: 'function', trunk: 'A', node: 'A2' } as const;
    const bells = of(saw('A', 'bell', 'fails'));
    expect(isAbout(bells, { ...look, function: 'lamp' })).toBe(true);
    expect(isAbout(bells, { ...look, function: 'announcement' })).toBe(true);
    expect(isAbout(bells, { ...look, function: 'room-call' })).toBe(false);
    const lamps = of(saw('A', 'lamp', 'fails'));
    expect(isAbout(lamps, { ...look, function: 'announcement' })).toBe(false);
  });

  it('is of the settings that would silence what was missed', () => {
    const bells = of(saw('A', 'bell', 'fails'));
    expect(isAbout(bells, { kind: 'head-end', setting: 'bell-source' })).toBe(true);
    expect(isAbout(bells, { kind: 'head-end', setting: 'selector' })).toBe(false);
  });

  it('is anything where nothing was missed', () => {
    const trouble = of(saw('A', 'bell', 'works'));
    expect(isAbout(trouble, { kind: 'head-end', setting: 'selector' })).toBe(true);
  });
});
