import { fitReadings } from '../locating/fit-readings.js';
import { asCarried, type EvidenceFacts, type PosedEvidence } from '../locating/pose-evidence.js';
import type { ErrorRates, ExpectedFaults, LocateRequest } from '../locator/index.js';
import type { AsBuilt } from '../sites/as-built.js';
import { type Language, wordsIn } from '../words/index.js';
import type { WorkTimes } from '../work-times/work-times.js';
import { type EnteredOnSite, withEntered } from '../locating/entered-on-site.js';
import { planTicketWalk, type WalkAnswer } from './plan-ticket-walk.js';
import type { Standing } from './walk-place.js';
import { stepsSeen } from './walk-seen.js';

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
export function planOnKit(asked: PlanOnKit): WalkAnswer {
  const { kit, entered } = asked;
  const facts = withEntered(evidenceOf(kit, kit.drawing as AsBuilt), entered);
  return asCarried(facts, (posed) => planPosed(asked, facts, posed));
}

function planPosed(
  { kit, from, language }: PlanOnKit,
  facts: EvidenceFacts,
  { evidence, looks, choice }: PosedEvidence,
): WalkAnswer {
  const { drawing, entries } = facts;
  const expected = kit.expectedFaults as ExpectedFaults;
  const { exposureDays } = kit;
  const { falseAlarmRatio } = kit.request as LocateRequest;
  const heardAlone: LocateRequest = {
    ...evidence.request,
    ...looks.request,
    ...(falseAlarmRatio !== undefined && { falseAlarmRatio }),
    exposureDays,
  };
  const times = kit.workTimes as WorkTimes;
  const errors = kit.errorRates as ErrorRates;
  const besides = { drawing, errors, expected, from, words: wordsIn(language), times };
  const seen = stepsSeen(entries);
  const { worked } = fitReadings(heardAlone, choice, (request) =>
    planTicketWalk({ ...besides, request, seen }),
  );
  return worked;
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
