import { describe, expect, it } from '@jest/globals';
import { refusePenPath } from '#app/shared/pen-path.js';
import { beginStroke, moveOn } from './pen-strokes.js';

describe('what a pen draws', () => {
  it('is strokes of whole numbers, without steps that tell nothing', () => {
    let drawn = beginStroke('', 10.4, 20.6);
    drawn = moveOn(drawn, 11, 21);
    drawn = moveOn(drawn, 30, 40);
    drawn = beginStroke(drawn, 5, 6);
    expect(drawn).toBe('M10 21L10 21L30 40M5 6L5 6');
    expect(refusePenPath(drawn)).toBeNull();
  });

  it('stays within the box and the longest that is taken, however long somebody scribbles', () => {
    let drawn = beginStroke('', -50, 900);
    for (let step = 0; step < 4_000; step++)
      drawn = moveOn(drawn, 700 * (step % 2), -10 + (step % 5) * 70);
    drawn = beginStroke(drawn, 1, 1);
    expect(drawn.length).toBeGreaterThan(11_900);
    expect(refusePenPath(drawn)).toBeNull();
  });
});
