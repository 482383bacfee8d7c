import { since } from '../parts/time-words.js';
import { SERVICE_CLOCK } from '../parts/service-clock.js';
import { FIELD_WORDS } from './field-words.js';

const MINUTE_MS = 60_000;

/** How long ago something was, by the clock of the service. */
export function agoInWords(instant: string): string {
  const now = SERVICE_CLOCK.now();
  if (now - Date.parse(instant) < MINUTE_MS) return FIELD_WORDS.justNow;
  return FIELD_WORDS.ago(since(instant, new Date(now)));
}

/** How old something is that this phone read, by its own clock. */
export function readInWords(askedAt: string): string {
  const now = Date.now();
  if (now - Date.parse(askedAt) < MINUTE_MS) return FIELD_WORDS.readNow;
  return FIELD_WORDS.readAgo(since(askedAt, new Date(now)));
}
