import { describe, expect, it, jest } from '@jest/globals';
import type { Intermittent } from '../locator/index.js';
import type { Evidence } from './evidence.js';
import { whileItFails } from './while-it-fails.js';

/** A letter a sitting: all of it heard (o) or silent (x). */
function evidence(sittings: string, stations = 20): Evidence {
  const used = [...sittings].map((letter) => ({ outcome: letter === 'x' ? 'fails' : 'works' }));
  const observations = used.map((one, sitting) => ({ ...one, sitting }));
  const trunks = [{ nodes: Array(stations).fill({}) }];
  return {
    request: { trunks, observations },
    inSittings: { observations },
    used,
  } as unknown as Evidence;
}
const passing = (nothing: number) => ({ nothing }) as Intermittent;
const sittingsIn = (sittings: string, nothing = 0.1) =>
  (
    whileItFails(evidence(sittings), () => passing(nothing))?.said.observations as
      { sitting: number }[] | undefined
  )?.map(({ sitting }) => sitting);

describe('while it fails', () => {
  it('goes by the last time that something failed, alone', () => {
    expect(sittingsIn('xox')).toEqual([2]);
    expect(sittingsIn('xoxoo')).toEqual([2]);
  });

  it('is quiet where it worked since', () => {
    expect(whileItFails(evidence('xox'), () => passing(0.1))?.isQuiet).toBe(false);
    expect(whileItFails(evidence('xoxo'), () => passing(0.1))?.isQuiet).toBe(true);
  });

  it('is nothing where it likely stays, or all was of one time', () => {
    expect(sittingsIn('xox', 0.51)).toBeUndefined();
    expect(whileItFails(evidence('xox'), () => null)).toBeNull();
  });

  it('is not weighed where that takes too long: each sitting doubles it', () => {
    const weigh = jest.fn(() => passing(0.1));
    expect(whileItFails(evidence('xox', 1000), weigh)).not.toBeNull();
    expect(weigh).toHaveBeenCalledTimes(1);
    for (const one of [evidence('xox', 1001), evidence('xoxox', 251), evidence('xo', 5000)])
      expect(whileItFails(one, weigh)).toBeNull();
    expect(weigh).toHaveBeenCalledTimes(1);
  });
});
