import { describe, expect, it } from '@jest/globals';
import { isAbout, troubleOf } from './trouble.js';
import { DEFAULT_PLAN } from '../../plan/default-plan.js';
import { tablesOf } from '../../plan/plan-tables.js';

const PLAN = tablesOf(DEFAULT_PLAN);

const saw = (trunk: string, name: 'lamp' | 'bell' | 'room-call', outcome: 'works' | 'fails') => {
  return { trunk, node: `${trunk}1`, function: name, outcome };
};
const of = (...observations: ReturnType<typeof saw>[]) =>
  troubleOf(PLAN, { trunks: [], exposureDays: 1, observations });

describe('the trouble that checks are about', () => {
  it('is on the trunks where something was missed', () => {
    const trouble = of(saw('A', 'bell', 'fails'), saw('B', 'bell', 'works'));
    const volts = { kind: 'supply-volts', node: 'x' } as const;
    expect(isAbout(PLAN, trouble, { ...volts, trunk: 'A' })).toBe(true);
    expect(isAbout(PLAN, trouble, { ...volts, trunk: 'B' })).toBe(false);
  });

  it('is of functions that need no other cores than those missed', () => {
    const look = { kind: 'function', trunk: 'A', node: 'A2' } as const;
    const bells = of(saw('A', 'bell', 'fails'));
    expect(isAbout(PLAN, bells, { ...look, function: 'lamp' })).toBe(true);
    expect(isAbout(PLAN, bells, { ...look, function: 'announcement' })).toBe(true);
    expect(isAbout(PLAN, bells, { ...look, function: 'room-call' })).toBe(false);
    const lamps = of(saw('A', 'lamp', 'fails'));
    expect(isAbout(PLAN, lamps, { ...look, function: 'announcement' })).toBe(false);
  });

  it('is of the settings that would silence what was missed', () => {
    const bells = of(saw('A', 'bell', 'fails'));
    expect(isAbout(PLAN, bells, { kind: 'head-end', setting: 'bell-source' })).toBe(true);
    expect(isAbout(PLAN, bells, { kind: 'head-end', setting: 'selector' })).toBe(false);
  });

  it('is anything where nothing was missed', () => {
    const trouble = of(saw('A', 'bell', 'works'));
    expect(isAbout(PLAN, trouble, { kind: 'head-end', setting: 'selector' })).toBe(true);
  });
});
