import { describe, expect, it } from '@jest/globals';
import { LONGEST_PEN_PATH, refusePenPath } from './pen-path.js';

describe('refusePenPath', () => {
  it('takes strokes within the box, up to the longest', () => {
    expect(refusePenPath('M0 0L600 200')).toBeNull();
    expect(refusePenPath('M10 20L30 40L5 6M7 8L9 10')).toBeNull();
    const longest = 'M10 10' + 'L10 10'.repeat(LONGEST_PEN_PATH / 6 - 1);
    expect(longest).toHaveLength(LONGEST_PEN_PATH);
    expect(refusePenPath(longest)).toBeNull();
    for (const more of [1, 100, 10_000])
      expect(refusePenPath(longest + 'L10 10'.repeat(more))).toMatch(/at most 12000/);
  });

  it('refuses what a pen does not draw', () => {
    const wrong = ['', 'M1 1', 'L1 1L2 2', 'M1 1L2', 'm1 1l2 2', 'M1 1L2 2Z', 'M1,1L2,2'];
    wrong.push('M-1 1L2 2', 'M1.5 1L2 2', 'M1 1L2 2\n', ' M1 1L2 2', '<svg/>', 'M1 1L1000 2');
    for (const text of wrong)
      expect([text, refusePenPath(text)]).toEqual([text, expect.anything()]);
    for (const text of ['M601 0L1 1', 'M0 0L1 201', 'M1 1L2 2M3 3L4 999'])
      expect(refusePenPath(text)).toBe('must lie within 600 by 200');
  });

  it('ends soon on a long text that is nearly one', () => {
    expect(refusePenPath(`${'M1 1L2 2'.repeat(1400)}M`)).not.toBeNull();
  });
});
