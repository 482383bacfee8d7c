import { describe, expect, it } from '@jest/globals';
import { allContexts, liveContexts } from './live-contexts.js';

describe('live contexts', () => {
  it('leave out the groups that change no digit, with every setting of the flags', () => {
    const live = liveContexts(Float64Array.of(0.9, 1e-30, 0.1));
    expect([...live(3)]).toEqual([0, 2]);
    expect([...live(6)]).toEqual([0, 2, 3, 5]);
  });

  it('keep what is rare but not negligible', () => {
    expect([...liveContexts(Float64Array.of(1, 1e-15))(2)]).toEqual([0, 1]);
  });

  it('are all of them where every hypothesis counts', () => {
    expect([...allContexts(2)(4)]).toEqual([0, 1, 2, 3]);
  });
});
