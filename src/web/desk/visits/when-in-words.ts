import { shortDay } from '../../parts/time-words.js';
import type { ReadVisit } from '../../parts/wire.js';

/** "Wed 4 Mar, 09:00–11:00". */
export function whenInWords({
  on,
  fromTime,
  untilTime,
}: Pick<ReadVisit, 'on' | 'fromTime' | 'untilTime'>): string {
  return fromTime === null ? shortDay(on) : `${shortDay(on)}, ${fromTime}–${untilTime}`;
}
