import { contradictions } from '../locating/contradictions.js';
import { fitReadings } from '../locating/fit-readings.js';
import { asCarried, type EvidenceFacts, type PosedEvidence } from '../locating/pose-evidence.js';
import { comesAndGoes, whileItFails } from '../locating/while-it-fails.js';
import type { TellApartDto } from '../locating/troubles.dto.js';
import { stepsSeen } from '../locating/steps-seen.js';
import {
  drawingFirst,
  isDrawnWrong,
  sayContradiction,
  sayDrawingDoubt,
} from '../locating/say-answer.js';
import type { Place } from '../drawing/drawn-node.js';
import {
  type ErrorRates,
  type ExpectedFaults,
  locatePlaces,
  type LocateRequest,
} from '../locator/index.js';
import type { AsBuilt } from '../sites/as-built.js';
import { type Language, wordsIn } from '../words/index.js';
import type { WorkTimes } from '../work-times/work-times.js';
import { type EnteredOnSite, withEntered } from '../locating/entered-on-site.js';
import { planTicketWalk, type WalkAnswer } from './plan-ticket-walk.js';
import type { Standing } from './walk-place.js';

/** Of a ticket’s kit, as it comes over the wire, what a plan is made from. */
export interface PlannedKit {
  drawing: object;
  request: object;
  errorRates: object;
  expectedFaults: object;
  exposureDays: number;
  evidence: object;
  workTimes: object;
}

export interface PlanOnKit {
  kit: PlannedKit;
  /** Oldest first, none of it known to the kit. */
  entered: readonly EnteredOnSite[];
  from: Standing;
  language: Language;
}

/**
 * What to do next, worked out by a page itself: what the service would answer once it has what was entered. After a mending,
 * how likely each fault is is still as it was before, until there is a new kit. Throws what the locator throws.
 */
export function planOnKit({ kit, entered, from, language }: PlanOnKit): WalkAnswer {
  const facts = factsOnKit(kit, entered);
  const { drawing, entries } = facts;
  const times = kit.workTimes as WorkTimes;
  const seen = stepsSeen(entries);
  return asCarried(facts, (posed) => {
    const { heardAlone, choice, errors, expected } = poseOnKit(kit, posed);
    const { evidence } = posed;
    const besides = {
      ...{ drawing, errors, expected, from, words: wordsIn(language), times },
      whileItFails: whileItFails(evidence, () =>
        comesAndGoes(evidence, heardAlone, { errors, expected }),
      ),
    };
    const { worked } = fitReadings(heardAlone, choice, (request) =>
      planTicketWalk({ ...besides, request, seen }),
    );
    return worked;
  });
}

/** What a page draws of a ticket. */
export interface SuspectedOnKit {
  /** What was said last of each function at a node since the last mending, as the trunk is used. */
  said: { trunk: string; node: string; function: string; outcome: string }[];
  /** The likeliest first, as the service’s own location has them. */
  places: { place: Place; probability: number }[];
  /** Who says of one room that it was heard, and who that it was silent, in words. */
  contradictions: string[];
  /** What settles the drawing, in words, where it is likelier wrong than not. */
  drawingFirst: string | null;
  /** The look that this asks for; null where it asks for none. */
  drawingLook: TellApartDto | null;
}

/** Where the trouble lies once what was entered is known. Throws what the locator throws. */
export function suspectedOnKit({
  kit,
  entered,
  language,
}: Omit<PlanOnKit, 'from'>): SuspectedOnKit {
  const facts = factsOnKit(kit, entered);
  return asCarried(facts, (posed) => {
    const { heardAlone, choice, errors, expected } = poseOnKit(kit, posed);
    const { worked } = fitReadings(heardAlone, choice, (request) =>
      locatePlaces(request, errors, expected),
    );
    const { result } = worked;
    const places = result.places.map(({ place, probability }) => ({ place, probability }));
    const words = wordsIn(language);
    const doubts = result.drawing.alternatives.map((one) =>
      sayDrawingDoubt(one, facts.drawing, words, stepsSeen(facts.entries)),
    );
    const open = doubts.find(({ settled }) => settled === null);
    const first = drawingFirst(doubts, facts.drawing, words);
    return {
      said: lastSaidOf(facts),
      places,
      contradictions: opposedOf(facts, posed, language),
      drawingFirst: first,
      drawingLook: first === null || isDrawnWrong(doubts) ? null : (open?.tellApart ?? null),
    };
  });
}

function opposedOf(
  { drawing }: EvidenceFacts,
  { evidence }: PosedEvidence,
  language: Language,
): string[] {
  return contradictions(evidence.used, [])
    .flatMap((one) => sayContradiction(one, drawing, wordsIn(language)))
    .map(({ words }) => words);
}

function lastSaidOf({ heard, ticket }: EvidenceFacts): SuspectedOnKit['said'] {
  const last = new Map<string, EvidenceFacts['heard'][number]>();
  for (const one of heard) {
    const isOfNow = one.period === ticket.period && one.withdrawalId === null;
    if (!isOfNow || one.disconnectedBelow != null) continue;
    const key = JSON.stringify([one.trunk, one.node, one.function]);
    const earlier = last.get(key);
    if (earlier === undefined || earlier.observedAt <= one.observedAt) last.set(key, one);
  }
  return [...last.values()].map(({ trunk, node, function: name, outcome }) => {
    return { trunk, node, function: name, outcome };
  });
}

function factsOnKit(kit: PlannedKit, entered: readonly EnteredOnSite[]): EvidenceFacts {
  return withEntered(evidenceOf(kit, kit.drawing as AsBuilt), entered);
}

function poseOnKit(kit: PlannedKit, { evidence, looks, choice }: PosedEvidence) {
  const { falseAlarmRatio } = kit.request as LocateRequest;
  const heardAlone: LocateRequest = {
    ...evidence.request,
    ...looks.request,
    ...(falseAlarmRatio !== undefined && { falseAlarmRatio }),
    exposureDays: kit.exposureDays,
  };
  const errors = kit.errorRates as ErrorRates;
  return { heardAlone, choice, errors, expected: kit.expectedFaults as ExpectedFaults };
}

/** JSON has no instants. */
function evidenceOf(kit: PlannedKit, drawing: AsBuilt): EvidenceFacts {
  const written = kit.evidence as Omit<EvidenceFacts, 'drawing'>;
  return {
    ...written,
    drawing,
    ticket: dated(written.ticket, 'openedAt'),
    heard: written.heard.map((one) => dated(one, 'observedAt')),
    entries: written.entries.map((one) => dated(one, 'happenedAt')),
    readings: written.readings.map((one) => dated(one, 'takenAt')),
    looks: written.looks.map((one) => dated(one, 'lookedAt')),
  };
}

function dated<Row extends object, Field extends keyof Row>(row: Row, field: Field): Row {
  return { ...row, [field]: new Date(row[field] as string) };
}
