import { since } from '../../parts/time-words.js';
import { timeLeft } from '../desk-words.js';
import type { MapSite } from './map-facts.js';
import { DESK_WORDS, MAP_WORDS } from '../words/words.js';

/** Until the first promise of what is silent there would be broken, else since when it is; undefined: nothing is silent. */
export function howUrgent({ tickets: [first] }: MapSite, now: Date): string | undefined {
  if (first === undefined) return undefined;
  const { nextPromise, openedAt, silentRooms } = first;
  return nextPromise === null
    ? DESK_WORDS.roomsSince(DESK_WORDS.rooms(silentRooms), since(openedAt, now))
    : timeLeft(nextPromise, now);
}

export function whoComes({ comes }: MapSite): string {
  return comes.map(({ technician, order }) => MAP_WORDS.comes(technician, order)).join('; ');
}
