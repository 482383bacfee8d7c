import type { ReadVisit } from '../../parts/wire.js';

/** When a visit is made and by whom, as it is typed: empty is nothing. */
export interface TypedChange {
  on: string;
  fromTime: string;
  untilTime: string;
  technicianId: string;
}

export function typedOf({ on, fromTime, untilTime, technicianId }: ReadVisit): TypedChange {
  return {
    on,
    fromTime: fromTime ?? '',
    untilTime: untilTime ?? '',
    technicianId: technicianId ?? '',
  };
}

/** What is typed otherwise than it is, as the service is asked; what somebody else changed meanwhile stays theirs. */
export function changesOf(visit: ReadVisit, typed: Partial<TypedChange>) {
  const is = typedOf(visit);
  const names = Object.keys(is) as (keyof TypedChange)[];
  const changed = names.filter((name) => (typed[name] ?? is[name]) !== is[name]);
  return Object.fromEntries(changed.map((name) => [name, typed[name] || null]));
}

/** To another time: why is asked then. */
export function isMoved(changes: object): boolean {
  return ['on', 'fromTime', 'untilTime'].some((name) => name in changes);
}
