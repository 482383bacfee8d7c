import { DEFAULT_PLAN } from '../plan/default-plan.js';
import type { ErrorRates } from '../plan/error-rates.js';
import { missedChance } from '../plan/look-errors.js';
import type { LocateRequest, Place } from '../locator/index.js';
import type { WorldFault } from '../locator/worlds/index.js';
import { placeKey } from './walk-place.js';

/** What is looked at where a fault may be: a place and its part, as a look names them. */
export interface LookedAtPart {
  place: Place;
  part: string;
  group?: string;
}

/** Modes of a station that are looked at by themselves; the unit does not show them. */
const BY_THEMSELVES: readonly string[] = [
  'volume-down',
  'bell-setting',
  'announcement-setting',
  'music-setting',
];

/** The look that shows this fault. */
export function lookFor({ place, component, mode }: WorldFault): LookedAtPart {
  if (place.kind === 'span') return { place, part: component };
  if (place.kind === 'station')
    return { place, part: BY_THEMSELVES.includes(mode) ? mode : 'unit' };
  // Modes of a group are named with their group behind a colon.
  const [part = mode, group] = mode.split(':');
  return { place, part, ...(group !== undefined && { group }) };
}

/** That a technician looks at it and does not see this fault. */
export function missedByTechnician(fault: WorldFault, errors?: ErrorRates): number {
  const usual = errors?.technician.missed;
  return missedChance(DEFAULT_PLAN, 'technician', lookFor(fault).part, fault.mode, usual) ?? 0;
}

/** That a technician takes what is sound for faulty. */
export const FALSE_CHANCE = DEFAULT_PLAN.looks.technician.false;

/** Keys of the places at which a technician looked and saw nothing; of the head-end, never: its modules are many. */
export function seenSound({ looks = [] }: Pick<LocateRequest, 'looks'>): ReadonlySet<string> {
  const seen = new Map<string, boolean>();
  for (const { place, part, seen: what, informant } of looks) {
    if (place.kind === 'head-end' || (informant?.kind ?? 'technician') !== 'technician') continue;
    if (place.kind === 'station' && part !== 'unit') continue;
    const component = place.kind === 'span' ? part : place.kind;
    seen.set(placeKey({ place, component } as WorldFault), what === 'sound');
  }
  return new Set([...seen].flatMap(([key, isSound]) => (isSound ? [key] : [])));
}
