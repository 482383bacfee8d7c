import { useEffect } from 'preact/hooks';

const EVERY_MS = 15_000;

/** Reads anew every few seconds while the page is looked at, and when it is looked at again. */
export function useLive(again: () => void): void {
  useEffect(() => {
    const look = () => {
      if (document.visibilityState === 'visible') again();
    };
    const timer = setInterval(look, EVERY_MS);
    document.addEventListener('visibilitychange', look);
    return () => {
      clearInterval(timer);
      document.removeEventListener('visibilitychange', look);
    };
  }, [again]);
}
