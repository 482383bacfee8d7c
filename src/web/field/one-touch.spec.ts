import { describe, expect, it } from '@jest/globals';

import { OneTouch } from './one-touch.js';

describe('one touch', () => {
  it.each([false, true])(
    'is the first of two of the same page, which is left then: %s',
    (isLeft) => {
      const touch = new OneTouch();
      const end = touch.begin({ newestDrawn: 3, isLeft });
      expect(end).toBeDefined();
      expect(touch.begin({ newestDrawn: 3, isLeft })).toBeUndefined();
      expect(touch.begin({ newestDrawn: 3, isLeft })).toBeUndefined();
      end?.();
      expect(touch.begin({ newestDrawn: 3, isLeft })).toBeDefined();
    },
  );

  it('is another of a page that shows what was entered, before that is wholly kept', () => {
    const touch = new OneTouch();
    const first = touch.begin({ newestDrawn: 3, isLeft: false });
    const second = touch.begin({ newestDrawn: 4, isLeft: false });
    expect(second).toBeDefined();
    expect(touch.begin({ newestDrawn: 4, isLeft: false })).toBeUndefined();
    first?.();
    expect(touch.begin({ newestDrawn: 4, isLeft: false })).toBeUndefined();
    second?.();
    expect(touch.begin({ newestDrawn: 4, isLeft: false })).toBeDefined();
  });

  it('is not another of a form that is still there while what it entered is drawn elsewhere', () => {
    const touch = new OneTouch();
    touch.begin({ newestDrawn: 3, isLeft: true });
    expect(touch.begin({ newestDrawn: 4, isLeft: true })).toBeUndefined();
  });
});
