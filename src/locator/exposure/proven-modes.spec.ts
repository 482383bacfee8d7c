import { describe, expect, it } from '@jest/globals';
import { DEFAULT_PLAN } from '../../plan/default-plan.js';
import { tablesOf } from '../../plan/plan-tables.js';
import { provenByFunction } from './proven-modes.js';

const PLAN = tablesOf(DEFAULT_PLAN);
const PROVEN_MODES = Object.fromEntries(
  provenByFunction(PLAN).map((proven, f) => [PLAN.functions[f]!, proven]),
) as Record<(typeof PLAN.functions)[number], ReturnType<typeof provenByFunction>[number]>;

describe('what a function that works proves', () => {
  it('an announcement: speech and the supply, not select', () => {
    const { headEnd, port, span, station } = PROVEN_MODES.announcement;
    expect(headEnd).toEqual(['power', 'amplifier', 'microphone']);
    expect(port).toEqual(['no-output']);
    expect(span).toEqual([
      'parted',
      'open-supply',
      'open-return',
      'open-speech',
      'short-supply',
      'short-speech',
      'resistive',
    ]);
    expect(station).toEqual(['dead', 'speaker', 'volume-down', 'announcement-setting']);
  });

  it('a lamp: the supply alone, and that nothing shorts it on the way', () => {
    expect(PROVEN_MODES.lamp.headEnd).toEqual(['power']);
    expect(PROVEN_MODES.lamp.span).toEqual([
      'parted',
      'open-supply',
      'open-return',
      'short-supply',
      'resistive',
    ]);
    expect(PROVEN_MODES.lamp.station).toEqual(['dead', 'lamp']);
    expect(PROVEN_MODES.lamp.stationOnPath).toEqual(['short-supply']);
  });

  it('a talkback: every core, and the station’s microphone, not its speaker', () => {
    expect(PROVEN_MODES.talkback.span).toHaveLength(9);
    expect(PROVEN_MODES.talkback.station).toEqual(['dead', 'microphone', 'address']);
  });
});
