import type { RefObject } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';

// Layout effects, so that the focus moves with what is shown: after an ordinary effect a key pressed in between went to
// the wrong place.

/** Focuses what just appeared, so that whoever listens to the page hears of it and nobody loses their place. */
export function useFocusOnAppearing<Shown extends HTMLElement>(): RefObject<Shown | null> {
  const ref = useRef<Shown>(null);
  useLayoutEffect(() => ref.current?.focus(), []);
  return ref;
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
