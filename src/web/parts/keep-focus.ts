import type { RefObject } from 'preact';
import { useEffect, useRef } from 'preact/hooks';

/**
 * Where what has the focus goes away and nothing else takes it, as a button that was pressed and has done its work, the heading gets it: the
 * browser would begin at the top of the page, and whoever works by the keyboard would walk all the way again.
 */
export function useFocusKept<Around extends HTMLElement>(): RefObject<Around | null> {
  const around = useRef<Around>(null);
  useEffect(() => (around.current === null ? undefined : keepFocus(around.current)), []);
  return around;
}

export function keepFocus(around: HTMLElement): () => void {
  let last: Element | undefined;
  let isByKeyboard = false;
  const note = ({ target }: Event) => {
    if (!(target instanceof Element)) return;
    last = target;
    isByKeyboard = target.matches(':focus-visible');
  };
  const observer = new MutationObserver(() => {
    if (last === undefined || last.isConnected || document.activeElement !== document.body) return;
    const heading = around.querySelector<HTMLElement>('h1');
    if (heading === null) return;
    heading.tabIndex = -1;
    // Nobody who touched a button is taken elsewhere.
    heading.focus({ preventScroll: !isByKeyboard });
  });
  around.addEventListener('focusin', note);
  observer.observe(around, { childList: true, subtree: true });
  return () => {
    around.removeEventListener('focusin', note);
    observer.disconnect();
  };
}
