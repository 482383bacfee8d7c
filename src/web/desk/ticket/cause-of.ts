import type { DrawnCable, DrawnChances } from '../../parts/drawing/drawn-facts.js';
import { stationName } from '../../parts/drawing/drawing-words.js';
import type { ReadTicketLocation } from '../../parts/wire.js';
import { TICKET_WORDS } from '../words/words.js';

export type TroubleOf = ReadTicketLocation['result']['troubles'][number];
export type CauseOf = TroubleOf['causes'][number]['cause'];
export type PlaceOf = DrawnChances['places'][number]['place'];

export type NameStation = (trunk: string | undefined, node: string | undefined) => string;

export function namesOn(cables: readonly DrawnCable[]): NameStation {
  return (trunk, node) => {
    const cable = cables.find((one) => one.trunk === trunk);
    const station = cable?.nodes.find((one) => one.node === node);
    return station === undefined ? (node ?? '') : stationName(station);
  };
}

/** Causes less likely than this are one line together: what is shown must still add up. */
const LEAST = 0.01;

export interface ShownCause {
  cause: CauseOf;
  probability: number;
}

/** The causes of one trouble, small ones and the rest as one; they add up to what they did. */
export function shownCauses({ causes }: TroubleOf): ShownCause[] {
  const shown = causes.filter(
    ({ cause, probability }) => cause.kind !== 'rest' && probability >= LEAST,
  );
  const rest = causes
    .filter((one) => !shown.includes(one))
    .reduce((sum, { probability }) => sum + probability, 0);
  return [
    ...shown.map(({ cause, probability }) => ({ cause, probability })),
    ...(rest > 0 ? [{ cause: { kind: 'rest' } as CauseOf, probability: rest }] : []),
  ];
}

/** Which trouble tells most at first sight: none that is taken for a mistaken report, where there is another. */
export function firstToShow(troubles: readonly TroubleOf[]): number {
  const isMistaken = ({ causes }: TroubleOf) => {
    const chances = causes.map(({ probability }) => probability);
    const likeliest = causes.find(({ probability }) => probability === Math.max(...chances));
    return likeliest?.cause.kind === 'nothing';
  };
  return Math.max(
    0,
    troubles.findIndex((one) => !isMistaken(one)),
  );
}

export interface MovedPlace {
  place: PlaceOf;
  before: number;
  after: number;
}

/** Changes smaller than this are none that anybody acts on. */
const LEAST_MOVE = 0.01;
const MOST_MOVES = 6;

/** Which places a supposition moves, those that move most first. */
export function movedPlaces(
  before: DrawnChances['places'],
  after: DrawnChances['places'],
): MovedPlace[] {
  const earlier = new Map(before.map(({ place, probability }) => [keyOf(place), probability]));
  return after
    .map(({ place, probability }) => ({
      place,
      before: earlier.get(keyOf(place)) ?? 0,
      after: probability,
    }))
    .filter((one) => Math.abs(one.after - one.before) >= LEAST_MOVE)
    .sort((a, b) => Math.abs(b.after - b.before) - Math.abs(a.after - a.before))
    .slice(0, MOST_MOVES);
}

function keyOf({ kind, trunk, to, node }: PlaceOf): string {
  return JSON.stringify([kind, trunk, to, node]);
}

export function placeName(place: PlaceOf, nameOf: NameStation): string {
  const { kind, trunk, from, to, node } = place;
  switch (kind) {
    case 'head-end':
      return TICKET_WORDS.causes.headEnd;
    case 'port':
      return TICKET_WORDS.places.port(trunk ?? '');
    case 'station':
      return TICKET_WORDS.places.station(nameOf(trunk, node));
    case 'span': {
      const first = from == null ? TICKET_WORDS.causes.headEnd : nameOf(trunk, from);
      return TICKET_WORDS.places.span(first, nameOf(trunk, to));
    }
  }
}
