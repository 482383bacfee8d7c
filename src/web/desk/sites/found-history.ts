import type { FoundHere } from '../../parts/drawing/drawn-facts.js';
import type { FoundAtSiteList } from '../../parts/wire.js';
import { RECORD_WORDS } from '../words/words.js';

export type FoundOnce = FoundAtSiteList['items'][number];

/** The year there in which it was found. */
export function yearOf({ foundAt }: Pick<FoundOnce, 'foundAt'>, timeZone: string): string {
  return new Intl.DateTimeFormat('en', { year: 'numeric', timeZone }).format(new Date(foundAt));
}

/** Each year with how many were found in it, the newest first. */
export function foundByYear(
  items: readonly FoundOnce[],
  zone: string,
): { year: string; count: number }[] {
  const counts = new Map<string, number>();
  for (const one of items) counts.set(yearOf(one, zone), (counts.get(yearOf(one, zone)) ?? 0) + 1);
  return [...counts]
    .map(([year, count]) => ({ year, count }))
    .sort((a, b) => Number(b.year) - Number(a.year));
}

/** At which node a finding is drawn: what a span leads into stands for it. */
export function nodeOfFound({ place }: Pick<FoundOnce, 'place'>): string | undefined {
  return place.kind === 'span' ? place.to : place.node;
}

/** How often something was found at each node. */
export function foundAtNodes(items: readonly FoundOnce[]): FoundHere[] {
  const found = new Map<string, FoundHere>();
  for (const one of items) {
    const { trunk } = one.place;
    const node = nodeOfFound(one);
    if (trunk === undefined || node === undefined) continue;
    const key = JSON.stringify([trunk, node]);
    const times = (found.get(key)?.times ?? 0) + 1;
    found.set(key, { trunk, node, times, words: ` ${RECORD_WORDS.foundCount(times)}.`.trim() });
  }
  return [...found.values()];
}
