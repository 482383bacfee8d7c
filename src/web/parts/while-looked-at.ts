/** What changes at once is read once. */
const TOGETHER_MS = 150;

/**
 * Reads anew when something changed, when the signal is back, and when the page is looked at again; without events, as where a
 * proxy holds them back, each `everyMs`. Nothing while nobody looks. Answers with what ends it.
 */
export function whileLookedAt(again: () => void, everyMs: number): () => void {
  const ending = new AbortController();
  let events: EventSource | undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const isLookedAt = () => document.visibilityState === 'visible';
  const soon = () => {
    clearTimeout(timer);
    timer = setTimeout(again, TOGETHER_MS);
  };
  const listen = () => {
    events?.close();
    events = isLookedAt() ? listenTo(soon) : undefined;
  };
  const look = () => {
    listen();
    if (isLookedAt()) soon();
  };
  const poll = setInterval(() => {
    // A browser gives up where it was answered by something else, as while the service starts.
    if (events?.readyState === EventSource.CLOSED) listen();
    if (isLookedAt()) soon();
  }, everyMs);
  listen();
  addEventListener('online', look, { signal: ending.signal });
  document.addEventListener('visibilitychange', look, { signal: ending.signal });
  return () => {
    ending.abort();
    events?.close();
    clearTimeout(timer);
    clearInterval(poll);
  };
}

function listenTo(soon: () => void): EventSource {
  const events = new EventSource('/api/v1/changes');
  let isBroken = false;
  events.addEventListener('change', soon);
  events.addEventListener('missed', soon);
  events.addEventListener('error', () => (isBroken = true));
  events.addEventListener('open', () => {
    // The signal is back, whether or not the browser says so.
    if (isBroken) soon();
    isBroken = false;
  });
  return events;
}
