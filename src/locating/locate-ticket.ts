import {
  DEFAULT_EXPLANATIONS,
  expectFaults,
  type Intermittent,
  locateAndKeep,
  type LocateRequest,
  type LocateResult,
  type WeighedTroubles,
} from '../locator/index.js';
import { siteHistory } from '../history/component-history.js';
import { errorRatesBy } from '../history/learned-errors.js';
import { siteExposure } from '../history/exposure.js';
import { ratesAtSite } from '../history/learned-rates.js';
import { toProofs } from '../history/proofs.js';
import { foundBy } from '../history/work-done.js';
import type { LeftOutReading } from '../readings/taken-reading.js';
import { askedAlready, couldNotTell } from '../reports/office-questions.js';
import type { AsBuilt } from '../sites/as-built.js';
import { wordsIn } from '../words/index.js';
import type { ContradictionDto } from './answer.dto.js';
import type { CheckToMakeDto } from './checks.dto.js';
import { contradictions } from './contradictions.js';
import { toEvidence } from './evidence.js';
import { fitReadings } from './fit-readings.js';
import type { ChosenLooks } from './ticket-looks.js';
import { asCarried, type PosedEvidence } from './pose-evidence.js';
import { predictedPlaces, type Suspect, suspects } from './place-chances.js';
import {
  lastClosed,
  type LocatedTicket,
  type LoggedEntry,
  readFacts,
  type TicketFacts,
  type TicketQuestion,
} from './ticket-facts.js';
import { sayContradiction } from './say-answer.js';
import { stepsSeen } from './steps-seen.js';
import { keptPlaces, toAnswer } from './ticket-answer.js';
import { comesAndGoes, whileItFails } from './while-it-fails.js';
import { checksForOffice, type WhatIsKnown } from './worth-checking.js';

/** What was worked out about a ticket, and from what. */
export interface Location extends WhatIsKnown {
  drawing: AsBuilt;
  readingsUsed: string[];
  readingsLeftOut: LeftOutReading[];
  looks: ChosenLooks;
  /** What others did near by before what is to be explained. */
  worksNearby: string[];
  /** Functions at stations that were proven since they were put in. */
  provenPoints: number;
  exposure: { days: number; reason: string };
  result: LocateResult;
  /** What the result was worked out from. */
  known: WeighedTroubles;
  /** Null where all evidence was of one time. */
  passing: Intermittent | null;
  suspects: Suspect[];
}

/** What is answered about a ticket, each part in JSON: written by the thread that worked it out. */
export interface LocatedInJson {
  answer: string;
  /** The likeliest places in words, with their components. */
  places: string;
  officeChecks: string;
  /** Every place with its chance. */
  predicted: string;
}

/** What is read back to whoever reports: what is worth doing now, and who contradicts whom. */
export interface ToldAtOnce {
  officeChecks: CheckToMakeDto[];
  contradictions: ContradictionDto[];
}

/** Where a ticket's trouble lies, all that is told of it. Throws what the locator throws. */
export function locateTicket(question: TicketQuestion): LocatedInJson {
  const facts = readFacts(question);
  const location = workOut(facts, DEFAULT_EXPLANATIONS);
  const answer = toAnswer(
    facts.ticket,
    location,
    wordsIn(question.language),
    stepsSeen(facts.entries),
  );
  return {
    answer: JSON.stringify(answer),
    places: JSON.stringify(keptPlaces(location)),
    officeChecks: JSON.stringify(answer.officeChecks),
    predicted: JSON.stringify(predictedPlaces(location.suspects)),
  };
}

/** The first instant of what is to be explained: what was before it is the site's past. */
export function beginningOf(
  ticket: LocatedTicket,
  drawing: AsBuilt,
  { heard, entries }: { heard: TicketFacts['heard']; entries: readonly LoggedEntry[] },
): Date {
  const { used } = toEvidence(drawing, heard, lastClosed(ticket, entries));
  return used[0]?.observedAt ?? ticket.openedAt;
}

/** What is asked about a ticket, before anything is worked out. */
interface Posed extends Pick<WhatIsKnown, 'errors' | 'expected' | 'lookedAt' | 'evidence'> {
  exposure: Location['exposure'];
  provenPoints: number;
  looks: ChosenLooks;
  worksNearby: string[];
  /** The request but for readings, and these. */
  heardAlone: LocateRequest;
  choice: PosedEvidence['choice'];
}

function pose(facts: TicketFacts, posed: PosedEvidence): Posed {
  const { drawing, entries } = facts;
  const { evidence, looks, choice, since, period, closedAt } = posed;
  const exposure = siteExposure(drawing, since);
  const proofs = toProofs(drawing, facts.heardBefore, since);
  const past = { asBuilt: drawing, proofs, found: foundBy(facts.work), nearby: facts.nearby };
  const components = siteHistory(past, ratesAtSite(facts.rates, drawing), since);
  return {
    evidence,
    exposure,
    provenPoints: proofs.length,
    errors: errorRatesBy(facts.errors),
    expected: expectFaults(evidence.request.trunks, components),
    lookedAt: askedAlready(looks.chosen, couldNotTell(entries, period, closedAt)),
    looks,
    worksNearby: facts.nearby.filter(({ on }) => new Date(on) < since).map(({ id }) => id),
    heardAlone: {
      ...evidence.request,
      ...looks.request,
      ...callsOf(facts),
      exposureDays: exposure.days,
    },
    choice,
  };
}

/** How much rarer calls are where all is well, where the firm's record says. */
function callsOf({ errors }: TicketFacts): Pick<LocateRequest, 'falseAlarmRatio'> {
  return errors === null ? {} : { falseAlarmRatio: errors.falseAlarmRatio };
}

/** What is told at once, in JSON: a fraction of the work of all that is told of a ticket. */
export function checkTicket(question: TicketQuestion): string {
  const facts = readFacts(question);
  const { drawing } = facts;
  const words = wordsIn(question.language);
  return asCarried(facts, (taken) => {
    const { heardAlone, choice, errors, expected, lookedAt, evidence } = pose(facts, taken);
    const failing = whileItFails(evidence, () =>
      comesAndGoes(evidence, heardAlone, { errors, expected }),
    );
    const known = { drawing, errors, expected, lookedAt, evidence, whileItFails: failing };
    const { worked } = fitReadings(heardAlone, choice, (posed) =>
      checksForOffice({ ...known, posed }, words),
    );
    const told: ToldAtOnce = {
      officeChecks: worked,
      contradictions: contradictions(evidence.used, []).flatMap((one) =>
        sayContradiction(one, drawing, words),
      ),
    };
    return JSON.stringify(told);
  });
}

/** Most of what is worked out needs no explanations, which take longer than all the rest. */
export function workOut(facts: TicketFacts, explanations = 0): Location {
  return asCarried(facts, (posed) => workOutPosed(facts, posed, explanations));
}

function workOutPosed(facts: TicketFacts, posed: PosedEvidence, explanations: number): Location {
  const { drawing } = facts;
  const { heardAlone, choice, ...known } = pose(facts, posed);
  const { evidence, errors, expected } = known;
  const fitted = fitReadings(heardAlone, choice, (request) =>
    locateAndKeep({ ...request, explanations }, errors, expected),
  );
  const { result, known: weighed } = fitted.worked;
  const passing = comesAndGoes(evidence, heardAlone, { errors, expected });
  return {
    ...known,
    drawing,
    posed: fitted.posed,
    readingsUsed: fitted.used.map(({ id }) => id),
    readingsLeftOut: fitted.leftOut,
    result,
    known: weighed,
    passing,
    whileItFails: whileItFails(evidence, () => passing),
    suspects: suspects(result, passing),
  };
}
