import type { LocateResult } from '../locator/index.js';
import type { AsBuilt } from '../sites/as-built.js';
import type { EndedStep } from '../tickets/ticket-log.js';
import { nameNodesOf } from '../sites/drawing.js';
import {
  DEFAULT_LANGUAGE,
  type Language,
  LANGUAGES,
  type LeftOut,
  type Words,
  wordsIn,
} from '../words/index.js';
import { contradictions } from './contradictions.js';
import { drawingDoubt } from './drawing-doubt.js';
import { groupTroubles } from './group-troubles.js';
import type { Location } from './locate-ticket.js';
import type {
  JointInWordsDto,
  LocationDto,
  PlaceInWordsDto,
  StretchInWordsDto,
} from './location.dto.js';
import type { Suspect } from './place-chances.js';
import { roomsBehind } from './rooms-behind.js';
import { sayAlsoBroken, sayContradiction, sayDrawingDoubt, sayFirst } from './say-answer.js';
import { leadingPlace, sayTrouble } from './say-troubles.js';
import type { LocatedTicket } from './ticket-facts.js';
import { checksForBoth } from './worth-checking.js';

/** Beyond these the places are in `result`. */
const PLACES_IN_WORDS = 5;

/** A likely place as it is kept for lists. */
export interface KeptPlace extends PlaceInWordsDto {
  inLanguages: Readonly<Record<Language, string>>;
}

/** The list of tickets shows the first to whoever reads it. */
export function keptPlaces({ suspects: list, drawing }: Location): KeptPlace[] {
  return list.slice(0, PLACES_IN_WORDS).map((one) => ({
    ...inWords(one, drawing, wordsIn(DEFAULT_LANGUAGE)),
    inLanguages: Object.fromEntries(
      LANGUAGES.map((language) => [language, inWords(one, drawing, wordsIn(language)).words]),
    ) as KeptPlace['inLanguages'],
  }));
}

/** Where a ticket's trouble lies, the facts with the words beside. */
export function toAnswer(
  ticket: LocatedTicket,
  location: Location,
  words: Words,
  /** How steps on site ended that are no evidence by themselves. */
  seen: readonly EndedStep[],
): LocationDto {
  const { drawing, evidence, exposure, passing, result } = location;
  const { officeChecks, technicianChecks } = checksForBoth(location, words);
  const grouped = groupTroubles(result.troubles, passing);
  const troubles = grouped.map((one) => sayTrouble(one, drawing, words));
  const leading = leadingPlace(grouped);
  const drawingDoubts = result.drawing.alternatives.map((one) =>
    sayDrawingDoubt(one, drawing, words, seen),
  );
  const inWordsWhy = ({ id, why }: { id: string; why: LeftOut }) => ({
    id,
    reason: words.answer.leftOut(why),
  });
  const leftOut = evidence.leftOut.map(inWordsWhy);
  // Words of different times may differ without anybody being wrong.
  const against = passing === null ? result.againstTheRest : [];
  return {
    ticketId: ticket.id,
    asBuiltVersion: ticket.asBuiltVersion,
    exposureDays: exposure.days,
    exposureSince: exposure.reason,
    provenPoints: location.provenPoints,
    sittings: evidence.sittings,
    intermittent: passing === null ? 0 : 1 - passing.nothing,
    intermittentCallersAsAnybody: passing?.identitiesDropped?.length ?? 0,
    observationsUsed: evidence.used.map(({ id }) => id),
    observationsLeftOut: leftOut,
    readingsUsed: location.readingsUsed,
    readingsLeftOut: location.readingsLeftOut.map(inWordsWhy),
    looksUsed: location.looks.chosen.map(({ id }) => id),
    looksLeftOut: location.looks.leftOut.map(inWordsWhy),
    worksNearby: location.worksNearby,
    officeChecks,
    technicianChecks,
    surprise: drawingDoubt(location, words),
    first: sayFirst(
      { leading, drawing: drawingDoubts, officeChecks, technicianChecks, leftOut },
      drawing,
      words,
    ),
    troubles,
    alsoBroken: troubles.length > 0 ? sayAlsoBroken(location.suspects, drawing, words) : [],
    contradictions: contradictions(evidence.used, against).flatMap((one) =>
      sayContradiction(one, drawing, words),
    ),
    drawingDoubts,
    places: location.suspects.slice(0, PLACES_IN_WORDS).map((one) => inWords(one, drawing, words)),
    stretches: likelyStretches(location.result, drawing, words),
    resistiveJoints: likelyJoints(location.result, drawing, words),
    result,
  };
}

function inWords(
  { place, probability, accounts, intermittent: passing, components }: Suspect,
  drawing: AsBuilt,
  words: Words,
): PlaceInWordsDto {
  const nameNode = nameNodesOf(drawing, words);
  const where = words.place(place, nameNode);
  return {
    words: words.withChance(passing ? words.comesAndGoes(where) : where, accounts),
    place,
    probability,
    accounts,
    intermittent: passing,
    components: components.map(({ component, faulty }) => {
      return { component, words: words.component(component, place, nameNode), faulty };
    }),
    silentIfSo: roomsBehind(place, drawing),
  };
}

/** Stretches less likely than this are left to `result`. */
const LEAST_LIKELY_STRETCH = 0.05;

function likelyStretches(
  { stretches }: LocateResult,
  drawing: AsBuilt,
  words: Words,
): StretchInWordsDto[] {
  const nameNode = nameNodesOf(drawing, words);
  return stretches
    .filter(({ spans, probability }) => spans.length > 1 && probability >= LEAST_LIKELY_STRETCH)
    .slice(0, PLACES_IN_WORDS)
    .map((stretch) => ({
      words: words.withChance(words.stretch(stretch, nameNode), stretch.probability),
      probability: stretch.probability,
      spans: [...stretch.spans].sort((a, b) => b.share - a.share),
    }));
}

/** Bad joints less likely than this are left to `result`. */
const LEAST_LIKELY_JOINT = 0.05;

function likelyJoints(
  { resistiveJoints = [] }: LocateResult,
  drawing: AsBuilt,
  words: Words,
): JointInWordsDto[] {
  const nameNode = nameNodesOf(drawing, words);
  return resistiveJoints
    .flatMap(({ candidates }) => candidates)
    .filter(({ probability }) => probability >= LEAST_LIKELY_JOINT)
    .sort((a, b) => b.probability - a.probability)
    .slice(0, PLACES_IN_WORDS)
    .map((joint) => ({ words: words.joint(joint, nameNode), ...joint }));
}
