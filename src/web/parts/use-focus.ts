import type { RefCallback, RefObject } from 'preact';
import { useCallback, useLayoutEffect, useRef } from 'preact/hooks';

// With what is shown, and not in an ordinary effect after it: a key pressed in between went to the wrong place.

/**
 * Focuses what just appeared, so that whoever listens to the page hears of it and nobody loses their place: once, be it there at first or
 * after something was read.
 */
export function useFocusOnAppearing<Shown extends HTMLElement>(): RefCallback<Shown> {
  const hasAppeared = useRef(false);
  return useCallback((shown: Shown | null) => {
    if (shown === null || hasAppeared.current) return;
    hasAppeared.current = true;
    shown.focus();
  }, []);
}

/** Focuses the first field that is marked wrong, each time that `cause` is another. */
export function useFocusOnWrong<Around extends HTMLElement>(
  cause: unknown,
): RefObject<Around | null> {
  const ref = useRef<Around>(null);
  useLayoutEffect(() => {
    ref.current?.querySelector<HTMLElement>('[data-wrong="true"]')?.focus();
  }, [cause]);
  return ref;
}
