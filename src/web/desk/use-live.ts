import { useEffect, useRef } from 'preact/hooks';

/** Without events, as where a proxy holds them back, the page is at most so old. */
const EVERY_MS = 30_000;
/** What changes at once is read once. */
const TOGETHER_MS = 150;

/** Reads anew when something changed, while the page is looked at, and when it is looked at again. */
export function useLive(again: () => void): void {
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  useEffect(() => {
    let events: EventSource | undefined;
    const soon = () => {
      clearTimeout(timer.current);
      timer.current = setTimeout(again, TOGETHER_MS);
    };
    const listen = () => {
      events?.close();
      events = undefined;
      if (document.visibilityState !== 'visible') return;
      events = new EventSource('/api/v1/changes');
      events.addEventListener('change', soon);
      events.addEventListener('missed', soon);
    };
    const look = () => {
      listen();
      if (document.visibilityState === 'visible') again();
    };
    listen();
    const polling = setInterval(() => {
      if (document.visibilityState === 'visible') again();
    }, EVERY_MS);
    document.addEventListener('visibilitychange', look);
    return () => {
      events?.close();
      clearTimeout(timer.current);
      clearInterval(polling);
      document.removeEventListener('visibilitychange', look);
    };
  }, [again]);
}
