import type { RefObject } from 'preact';
import { useEffect, useRef } from 'preact/hooks';

/** Focuses what just appeared, so that whoever listens to the page hears of it and nobody loses their place. */
export function useFocusOnAppearing<Shown extends HTMLElement>(): RefObject<Shown | null> {
  const ref = useRef<Shown>(null);
  useEffect(() => ref.current?.focus(), []);
  return ref;
}

/** Focuses the first field that is marked wrong, each time that `cause` is another. */
export function useFocusOnWrong<Around extends HTMLElement>(
  cause: unknown,
): RefObject<Around | null> {
  const ref = useRef<Around>(null);
  useEffect(() => {
    ref.current?.querySelector<HTMLElement>('[data-wrong="true"]')?.focus();
  }, [cause]);
  return ref;
}
