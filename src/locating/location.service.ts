import { Injectable } from '@nestjs/common';
import {
  type Intermittent,
  intermittent,
  DEFAULT_EXPLANATIONS,
  expectedGiven,
  expectFaults,
  ImpossibleEvidence,
  InvalidLocateRequest,
  locate,
  type LocateResult,
} from '../locator/index.js';
import type { AsBuilt } from '../sites/as-built.js';
import { SitesService } from '../sites/sites.service.js';
import type { CheckToMakeDto } from './checks.dto.js';
import { componentInWords } from './component-in-words.js';
import { drawingDoubt } from './drawing-doubt.js';
import { nameNodesOf } from '../sites/drawing.js';
import { type Evidence, toEvidence } from './evidence.js';
import { siteExposure } from '../history/exposure.js';
import { HistoryService } from '../history/history.service.js';
import { fitReadings } from './fit-readings.js';
import { jointInWords } from './joint-in-words.js';
import type {
  JointInWordsDto,
  LocationDto,
  PlaceInWordsDto,
  StretchInWordsDto,
} from './location.dto.js';
import { settingsTold } from '../reports/office-questions.js';
import { ObservationService } from '../reports/observation.service.js';
import { type Suspect, suspects } from './place-chances.js';
import { placeInWords, stretchInWords } from './place-in-words.js';
import { roomsBehind } from './rooms-behind.js';
import type { LeftOutReading } from '../readings/taken-reading.js';
import { TicketLogService } from '../tickets/ticket-log.service.js';
import type { Ticket } from '../tickets/ticket.entity.js';
import { ReadingService } from '../readings/reading.service.js';
import { TicketService } from '../tickets/ticket.service.js';
import { checksForOffice, checksForTechnician, type WhatIsKnown } from './worth-checking.js';

/** Beyond these the places are in `result`. */
const PLACES_IN_WORDS = 5;

/** What was worked out about a ticket, and from what. */
export interface Location extends WhatIsKnown {
  drawing: AsBuilt;
  evidence: Evidence;
  readingsUsed: string[];
  readingsLeftOut: LeftOutReading[];
  /** Functions at stations that were proven since they were put in. */
  provenPoints: number;
  exposure: { days: number; reason: string };
  result: LocateResult;
  /** Null where all evidence was of one time. */
  passing: Intermittent | null;
  suspects: Suspect[];
}

/** Works out where a ticket's trouble lies, from its drawing, its observations and the site's record. */
@Injectable()
export class LocationService {
  constructor(
    private readonly log: TicketLogService,
    private readonly observations: ObservationService,
    private readonly readings: ReadingService,
    private readonly reader: TicketService,
    private readonly sites: SitesService,
    private readonly history: HistoryService,
  ) {}

  async locate(ticketId: string): Promise<LocationDto> {
    const ticket = await this.reader.find(ticketId);
    const location = await this.workOut(ticket, DEFAULT_EXPLANATIONS);
    const { drawing, evidence, exposure, passing } = location;
    return {
      ticketId: ticket.id,
      asBuiltVersion: ticket.asBuiltVersion,
      exposureDays: exposure.days,
      exposureSince: exposure.reason,
      provenPoints: location.provenPoints,
      sittings: evidence.sittings,
      intermittent: passing === null ? 0 : 1 - passing.nothing,
      observationsUsed: evidence.used.map(({ id }) => id),
      observationsLeftOut: evidence.leftOut.map(({ id }) => id),
      readingsUsed: location.readingsUsed,
      readingsLeftOut: location.readingsLeftOut,
      officeChecks: checksForOffice(location),
      technicianChecks: checksForTechnician(location),
      surprise: drawingDoubt(evidence, exposure.days, location.expected, drawing),
      places: location.suspects.slice(0, PLACES_IN_WORDS).map((one) => inWords(one, drawing)),
      stretches: likelyStretches(location.result, drawing),
      resistiveJoints: likelyJoints(location.result, drawing),
      result: location.result,
    };
  }

  /** What the office can do now; nothing where the evidence is more than the locator takes. */
  async officeChecks(ticketId: string): Promise<CheckToMakeDto[]> {
    const ticket = await this.reader.find(ticketId);
    try {
      return checksForOffice(await this.workOut(ticket));
    } catch (error) {
      if (error instanceof InvalidLocateRequest || error instanceof ImpossibleEvidence) return [];
      throw error;
    }
  }

  /** Most of what is worked out needs no explanations, which take longer than all the rest. */
  async workOut(ticket: Ticket, explanations = 0): Promise<Location> {
    const drawing = await this.sites.drawing(ticket.siteId, ticket.asBuiltVersion);
    const heard = await this.observations.listOfTicket(ticket.id);
    const closedAt = await this.lastClosed(ticket);
    const evidence = toEvidence(drawing, heard, closedAt);
    const now = evidence.used[0]?.observedAt ?? ticket.openedAt;
    const exposure = siteExposure(drawing, now);
    const { proofs, components } = await this.history.before(ticket, drawing, now);
    const period = evidence.used[0]?.period ?? ticket.period;
    const answers = await this.log.listOfKind(ticket.id, ['answer', 'mending']);
    const { told, lookedAt } = settingsTold(answers, period, closedAt);
    const expected = expectedGiven(expectFaults(evidence.request.trunks, components), told);
    const mendedAt = answers.filter(({ kind }) => kind === 'mending').map((one) => one.happenedAt);
    const readings = await this.readings.choose(ticket, drawing, { period, closedAt, mendedAt });
    const heardAlone = { ...evidence.request, exposureDays: exposure.days };
    const fitted = fitReadings(heardAlone, readings, (request) =>
      locate({ ...request, explanations }, undefined, expected),
    );
    const result = fitted.worked;
    const passing =
      evidence.inSittings &&
      intermittent({ ...evidence.inSittings, exposureDays: exposure.days }, undefined, expected);
    return {
      drawing,
      posed: fitted.posed,
      expected,
      lookedAt,
      evidence,
      readingsUsed: fitted.used.map(({ id }) => id),
      readingsLeftOut: fitted.leftOut,
      provenPoints: proofs.length,
      exposure,
      result,
      passing,
      suspects: suspects(result, passing),
    };
  }

  /** When it was closed before it was taken up again; of a closed one, the time before. */
  private async lastClosed(ticket: Ticket): Promise<Date | null> {
    const moves = await this.log.listOfKind(ticket.id, ['move']);
    const closings = moves.filter(({ details }) => details.to === 'closed');
    return closings.at(ticket.state === 'closed' ? -2 : -1)?.happenedAt ?? null;
  }
}

function inWords(
  { place, probability, intermittent: passing, components }: Suspect,
  drawing: AsBuilt,
): PlaceInWordsDto {
  const nameNode = nameNodesOf(drawing);
  const words = placeInWords(place, nameNode);
  return {
    words: `${passing ? 'comes and goes: ' : ''}${words}, ${Math.round(probability * 100)} %`,
    place,
    probability,
    intermittent: passing,
    components: components.map(({ component, faulty }) => {
      return { component, words: componentInWords(component, place, nameNode), faulty };
    }),
    silentIfSo: roomsBehind(place, drawing),
  };
}

/** Stretches less likely than this are left to `result`. */
const LEAST_LIKELY_STRETCH = 0.05;

function likelyStretches({ stretches }: LocateResult, drawing: AsBuilt): StretchInWordsDto[] {
  const nameNode = nameNodesOf(drawing);
  return stretches
    .filter(({ spans, probability }) => spans.length > 1 && probability >= LEAST_LIKELY_STRETCH)
    .slice(0, PLACES_IN_WORDS)
    .map((stretch) => ({
      words: `${stretchInWords(stretch, nameNode)}, ${Math.round(stretch.probability * 100)} %`,
      probability: stretch.probability,
      spans: [...stretch.spans].sort((a, b) => b.share - a.share),
    }));
}

/** Bad joints less likely than this are left to `result`. */
const LEAST_LIKELY_JOINT = 0.05;

function likelyJoints({ resistiveJoints = [] }: LocateResult, drawing: AsBuilt): JointInWordsDto[] {
  const nameNode = nameNodesOf(drawing);
  return resistiveJoints
    .flatMap(({ candidates }) => candidates)
    .filter(({ probability }) => probability >= LEAST_LIKELY_JOINT)
    .sort((a, b) => b.probability - a.probability)
    .slice(0, PLACES_IN_WORDS)
    .map((joint) => ({ words: jointInWords(joint, nameNode), ...joint }));
}
