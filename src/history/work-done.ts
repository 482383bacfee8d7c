import type { Component, ComponentName, Place } from '../locator/index.js';
import type { EntryDetails, EntryKind } from '../tickets/ticket-log.js';

/** An entry of a ticket's log as far as the rules about work read it. */
export interface WorkEntry {
  ticketId: string;
  kind: EntryKind;
  happenedAt: Date;
  details: EntryDetails;
}

/** What was found at one place, and when it was mended; null while it was only touched. */
export interface Found {
  ticketId: string;
  place: Place;
  component: ComponentName | null;
  mode: string | null;
  foundAt: Date;
  mending: 'lasting' | 'temporary' | null;
  mendedAt: Date | null;
  shares: NonNullable<EntryDetails['shares']>;
}

/**
 * What was found on tickets, each place once between two mendings, by the last word about it. A mending mends what was
 * found since the one before it. Entries in the order in which they were recorded.
 */
export function foundBy(entries: readonly WorkEntry[]): Found[] {
  const open = new Map<string, Map<string, Found>>();
  const done: Found[] = [];
  for (const { ticketId, kind, happenedAt, details } of entries) {
    const found = open.get(ticketId) ?? new Map<string, Found>();
    open.set(ticketId, found);
    if (kind === 'finding' && details.place != null) {
      const { place, component, mode, shares } = details;
      found.set(JSON.stringify(placeParts(place)), {
        ticketId,
        place,
        component: (component ?? null) as ComponentName | null,
        mode: mode ?? null,
        foundAt: happenedAt,
        mending: null,
        mendedAt: null,
        shares: shares ?? [],
      });
    } else if (kind === 'mending') {
      const mending = details.mending ?? null;
      for (const one of found.values()) done.push({ ...one, mending, mendedAt: happenedAt });
      found.clear();
    }
  }
  return [...done, ...[...open.values()].flatMap((found) => [...found.values()])];
}

/** What tells one place from the others. */
export function placeParts(place: Place): string[] {
  if (place.kind === 'head-end') return [place.kind];
  if (place.kind === 'port') return [place.kind, place.trunk];
  if (place.kind === 'span') return [place.kind, place.trunk, place.to];
  return [place.kind, place.trunk, place.node];
}

/** The components of a place, or the one of them that is named. */
export function componentsOf(place: Place, named: ComponentName | null = null): Component[] {
  switch (place.kind) {
    case 'head-end':
      return [{ component: 'head-end' }];
    case 'port':
      return [{ component: 'port', trunk: place.trunk }];
    case 'station':
      return [{ component: 'station', trunk: place.trunk, node: place.node }];
    case 'span':
      return (['junction-out', 'cable', 'junction-in'] as const)
        .filter((component) => component === (named ?? component))
        .map((component) => ({ component, trunk: place.trunk, node: place.to }));
  }
}

/** What tells one component of a site from the others. */
export function componentKey(component: Component): string {
  const trunk = 'trunk' in component ? component.trunk : '';
  const node = 'node' in component ? component.node : '';
  return JSON.stringify([component.component, trunk, node]);
}
