import type {
  ChosenQuarterVisit,
  KeptQuarterWish,
  OwedQuarterVisit,
  PutQuarterWish,
} from '../../parts/wire.js';

export type WantKind = 'best' | 'stay' | 'move' | 'not-then' | 'not-who' | 'left';

/** What somebody wants of a promised visit, as it is chosen on the page. */
export interface Want {
  kind: WantKind;
  /** Where it stays or goes; empty: whatever is best. */
  on: string;
  technicianId: string;
  /** Ruled out one after the other. */
  notOn: string[];
  notBy: string[];
  skills: string[];
  reason: string;
}

/** What somebody wanted last, and when. */
export interface HeldWant extends Want {
  changedBy: string;
  changedAt: string;
  version: number;
}

/** By the keys of visits. */
export type Wants = Readonly<Record<string, HeldWant>>;

/** Where a plan has a visit. */
export interface QuarterPlace {
  on: string;
  technicianId: string;
}

export const NOTHING_WANTED: Want = {
  kind: 'best',
  on: '',
  technicianId: '',
  notOn: [],
  notBy: [],
  skills: [],
  reason: '',
};

type Owed = Pick<OwedQuarterVisit, 'contractId' | 'siteId' | 'year' | 'ordinal'>;

export function keyOfVisit({ contractId, siteId, year, ordinal }: Owed): string {
  return `${contractId} ${siteId} ${year} ${ordinal}`;
}

/**
 * What is chosen, as it is kept: what stays is said by its place, and what is ruled out is so beside what was before. A place that
 * is named leaves nothing to rule out.
 */
export function settledWant(want: Want, place: QuarterPlace | undefined): Want {
  const nowhere = { on: '', technicianId: '' };
  const free = { notOn: [], notBy: [] };
  if (want.kind === 'move') return { ...want, ...free };
  if (want.kind === 'left') return { ...want, ...free, ...nowhere };
  if (place === undefined || want.kind === 'best') return { ...want, kind: 'best', ...nowhere };
  if (want.kind === 'stay') return { ...want, ...free, ...place, kind: 'move' };
  const { notOn, notBy } = want;
  const isDay = want.kind === 'not-then';
  return {
    ...want,
    ...nowhere,
    kind: 'best',
    notOn: isDay ? [...new Set([...notOn, place.on])] : notOn,
    notBy: isDay ? notBy : [...new Set([...notBy, place.technicianId])],
  };
}

/** Whether it asks for anything at all. */
export function isWanting({ kind, skills, notOn, notBy }: Want): boolean {
  return kind !== 'best' || [...skills, ...notOn, ...notBy].length > 0;
}

/** As it is kept for everybody who plans these weeks. */
export function wishOf({ contractId, siteId, year, ordinal }: Owed, want: Want): PutQuarterWish {
  const { kind, on, technicianId, notOn, notBy, skills, reason } = want;
  return {
    ...{ contractId, siteId, year, ordinal, notOn, notBy, skills },
    on: on || null,
    pinnedTo: technicianId || null,
    isLeft: kind === 'left',
    reason: reason || null,
  };
}

/** What is kept, as it is chosen on the page; by the keys of visits. What was taken back again is there too. */
export function heldOf(wishes: readonly KeptQuarterWish[]): Wants {
  return Object.fromEntries(wishes.map((wish) => [keyOfVisit(wish), toWant(wish)]));
}

function toWant(wish: KeptQuarterWish): HeldWant {
  const { on, pinnedTo, notOn, notBy, skills, isLeft, reason } = wish;
  const { changedBy, changedAt, version } = wish;
  const isPlaced = on !== null || pinnedTo !== null;
  return {
    kind: isLeft ? 'left' : isPlaced ? 'move' : 'best',
    ...{ on: on ?? '', technicianId: pinnedTo ?? '', reason: reason ?? '' },
    ...{ notOn, notBy, skills, changedBy, changedAt, version },
  };
}

/** A placed visit as it is booked; what was wanted of it is kept with it. */
export function chosenOf(visit: Owed & QuarterPlace, want: Want | undefined): ChosenQuarterVisit {
  const { siteId, on, technicianId } = visit;
  return {
    ...{ siteId, on, technicianId },
    pinnedTo: want?.technicianId || null,
    notBy: want?.notBy ?? [],
    skills: want?.skills ?? [],
    reason: want?.reason || null,
  };
}
