import type { Cause, Intermittent, Place, Trouble } from '../locator/index.js';
import { placeParts } from '../history/work-done.js';
import type { ToldCause } from '../words/index.js';

/** Points are one trouble where they share the likeliest cause and no more than this lies elsewhere (decision 0067). */
const ALIKE = 0.1;
/** What is less likely is told as `rest`. */
const LEAST_TOLD = 0.02;
/** That nothing is wrong is always worth saying. */
const LEAST_TOLD_OF_NOTHING = 0.005;
const MOST_TOLD = 6;

/** One cause of a trouble, over its points. */
export interface GroupedCause {
  cause: ToldCause;
  probability: number;
  /** Components of a span, modes of a unit; most probable first. */
  details: { part: string; probability: number }[];
  /** Of a short: the chance that each place holds it, given that there is one. */
  within: NonNullable<Trouble['causes'][number]['within']>;
}

export interface GroupedTrouble {
  trunk: string;
  points: Pick<Trouble, 'function' | 'node'>[];
  /** Most probable first, `rest` last; they add up to 1. */
  causes: GroupedCause[];
}

/**
 * Points of one trunk with nearly the same causes are one trouble: "Rooms 113 to 124". Each room's own unit and `nothing`
 * are what rooms differ in by nature: they are one cause here.
 *
 * @param passing what may come and go: the troubles hold as far as nothing does
 */
export function groupTroubles(
  troubles: readonly Trouble[],
  passing: Intermittent | null,
): GroupedTrouble[] {
  const groups: Trouble[][] = [];
  for (const trouble of troubles) {
    const alike = groups.find(([first]) => first !== undefined && isAlike(first, trouble, passing));
    if (alike === undefined) groups.push([trouble]);
    else alike.push(trouble);
  }
  return groups.map((points) => ({
    trunk: points[0]?.trunk ?? '',
    points: points.map(({ function: name, node }) => ({ function: name, node })),
    causes: tellFew(withPassing(joinCauses(points), passing, points)),
  }));
}

function isAlike(a: Trouble, b: Trouble, passing: Intermittent | null): boolean {
  if (a.trunk !== b.trunk) return false;
  const [of, other] = [pooled(a, passing), pooled(b, passing)];
  if (likeliest(of) !== likeliest(other)) return false;
  const keys = new Set([...of.keys(), ...other.keys()]);
  const apart = [...keys].map((key) => Math.abs((of.get(key) ?? 0) - (other.get(key) ?? 0)));
  return apart.reduce((sum, one) => sum + one, 0) / 2 <= ALIKE;
}

function pooled(point: Trouble, passing: Intermittent | null): ReadonlyMap<string, number> {
  const shares = new Map<string, number>();
  for (const { cause, probability } of withPassing(joinCauses([point]), passing, [point])) {
    const key = isOwn(cause) ? 'own' : JSON.stringify(cause);
    shares.set(key, (shares.get(key) ?? 0) + probability);
  }
  return shares;
}

function isOwn(cause: ToldCause): boolean {
  if (cause.kind === 'comes-and-goes') return cause.place.kind === 'station';
  return cause.kind === 'own-unit' || cause.kind === 'nothing';
}

function likeliest(shares: ReadonlyMap<string, number>): string | undefined {
  return [...shares].sort(([, a], [, b]) => b - a)[0]?.[0];
}

/** What is told as one, and the part of it that a cause names. `node`: the only room; null where there are several. */
function toldAs(cause: Cause, node: string | null): { told: ToldCause; part: string | null } {
  switch (cause.kind) {
    case 'span': {
      const { component, ...place } = cause;
      return { told: { kind: 'span', place }, part: component };
    }
    case 'port':
      return { told: { kind: 'port', place: cause }, part: null };
    case 'station':
      return { told: { kind: 'own-unit', node, mode: null }, part: cause.mode };
    case 'head-end':
    case 'short':
    case 'weak-feed':
    case 'nothing':
    case 'rest':
      return { told: cause, part: null };
  }
}

/** The mean over the points. */
function joinCauses(points: readonly Trouble[]): GroupedCause[] {
  const rooms = new Set(points.map(({ node }) => node));
  const only = rooms.size === 1 ? (points[0]?.node ?? null) : null;
  const joined = new Map<string, GroupedCause>();
  for (const { causes } of points)
    for (const { cause, probability, within = [] } of causes) {
      const { told, part } = toldAs(cause, only);
      const key = JSON.stringify(told);
      const known = joined.get(key) ?? { cause: told, probability: 0, details: [], within };
      joined.set(key, known);
      known.probability += probability / points.length;
      if (part !== null) addPart(known.details, part, probability / points.length);
    }
  for (const { details } of joined.values()) details.sort(likeliestFirst);
  return [...joined.values()];
}

function addPart(details: GroupedCause['details'], part: string, probability: number): void {
  const known = details.find((one) => one.part === part);
  if (known === undefined) details.push({ part, probability });
  else known.probability += probability;
}

/** What is elsewhere and comes and goes is no cause here: its share is among the rest. */
function concerns(place: Place, points: readonly Trouble[]): boolean {
  if (place.kind === 'head-end') return true;
  return points.some(
    ({ trunk, node }) => trunk === place.trunk && (place.kind !== 'station' || place.node === node),
  );
}

function withPassing(
  causes: GroupedCause[],
  passing: Intermittent | null,
  points: readonly Trouble[],
): GroupedCause[] {
  if (passing === null) return causes;
  const staying = causes.map((one) => ({
    ...one,
    probability: one.probability * passing.nothing,
    details: one.details.map((detail) => ({
      ...detail,
      probability: detail.probability * passing.nothing,
    })),
  }));
  const comings = [...passing.spans, ...passing.parts].filter((one) => concerns(one.place, points));
  const coming = new Map<string, GroupedCause>();
  for (const one of comings) {
    const key = placeParts(one.place).join('\n');
    const cause = { kind: 'comes-and-goes', place: one.place } as const;
    const known = coming.get(key) ?? { cause, probability: 0, details: [], within: [] };
    coming.set(key, known);
    known.probability += one.probability;
    const parts =
      'components' in one
        ? one.components.map(({ component, probability }) => [component, probability] as const)
        : one.place.kind === 'port'
          ? []
          : Object.entries(one.modes);
    for (const [part, probability] of parts) addPart(known.details, part, probability);
  }
  for (const { details } of coming.values()) details.sort(likeliestFirst);
  return [...staying, ...coming.values()];
}

/** The likeliest few, and what is left of 1 as `rest`. */
function tellFew(causes: readonly GroupedCause[]): GroupedCause[] {
  const told = causes
    .filter(({ cause, probability }) => cause.kind !== 'rest' && probability >= leastTold(cause))
    .sort((a, b) => likeliestFirst(a, b) || compareKeys(a, b))
    .slice(0, MOST_TOLD);
  const left = 1 - told.reduce((sum, { probability }) => sum + probability, 0);
  if (left < ROUNDING) return told;
  return [...told, { cause: { kind: 'rest' }, probability: left, details: [], within: [] }];
}

function leastTold({ kind }: ToldCause): number {
  return kind === 'nothing' ? LEAST_TOLD_OF_NOTHING : LEAST_TOLD;
}

/** Sums of twenty chances are off by less. */
const ROUNDING = 1e-9;

function likeliestFirst(a: { probability: number }, b: { probability: number }): number {
  return b.probability - a.probability;
}

function compareKeys(a: GroupedCause, b: GroupedCause): number {
  return keyOf(a) < keyOf(b) ? -1 : 1;
}

function keyOf({ cause }: GroupedCause): string {
  return 'place' in cause ? placeParts(cause.place).join(' ') : JSON.stringify(cause);
}
