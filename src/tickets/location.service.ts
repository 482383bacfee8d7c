import { Injectable } from '@nestjs/common';
import {
  type ComesAndGoes,
  comesAndGoes,
  type ExpectedFaults,
  expectFaults,
  locate,
  type LocateRequest,
  type LocateResult,
} from '../locator/index.js';
import type { AsBuilt } from '../sites/as-built.js';
import { SitesService } from '../sites/sites.service.js';
import { componentInWords } from './component-in-words.js';
import { nameNodesOf } from './drawing.js';
import { type Evidence, toEvidence } from './evidence.js';
import { siteExposure } from './exposure.js';
import { LearnedRatesService } from './learned-rates.service.js';
import type { LocationDto, PlaceInWordsDto } from './location.dto.js';
import { ObservationRepository } from './observation.repository.js';
import { type Suspect, suspects } from './place-chances.js';
import { placeInWords } from './place-in-words.js';
import { toProofs } from './proofs.js';
import { RecordRepository } from './record.repository.js';
import { roomsBehind } from './rooms-behind.js';
import { siteRecord } from './site-record.js';
import { TicketEntryRepository } from './ticket-entry.repository.js';
import type { Ticket } from './ticket.entity.js';
import { TicketService } from './ticket.service.js';
import { foundBy } from './work-done.js';

/** Beyond these the places are in `result`. */
const PLACES_IN_WORDS = 5;

/** What was worked out about a ticket, and from what. */
export interface Location {
  drawing: AsBuilt;
  evidence: Evidence;
  /** Functions at stations that were proven since they were put in. */
  provenPoints: number;
  exposure: { days: number; reason: string };
  /** What the locator was asked, and what it took for the prior. */
  request: LocateRequest;
  expected: ExpectedFaults;
  result: LocateResult;
  /** Null where all evidence was of one time. */
  passing: ComesAndGoes | null;
  suspects: Suspect[];
}

/** Works out where a ticket's trouble lies, from its drawing, its observations and the site's record. */
@Injectable()
export class LocationService {
  constructor(
    private readonly entries: TicketEntryRepository,
    private readonly observations: ObservationRepository,
    private readonly reader: TicketService,
    private readonly sites: SitesService,
    private readonly record: RecordRepository,
    private readonly learned: LearnedRatesService,
  ) {}

  async locate(ticketId: string): Promise<LocationDto> {
    const ticket = await this.reader.find(ticketId);
    const location = await this.workOut(ticket);
    const { drawing, evidence, exposure, passing } = location;
    return {
      ticketId: ticket.id,
      asBuiltVersion: ticket.asBuiltVersion,
      exposureDays: exposure.days,
      exposureSince: exposure.reason,
      provenPoints: location.provenPoints,
      sittings: evidence.sittings,
      comesAndGoes: passing === null ? 0 : 1 - passing.nothing,
      observationsUsed: evidence.used.map(({ id }) => id),
      observationsLeftOut: evidence.leftOut.map(({ id }) => id),
      places: location.suspects.slice(0, PLACES_IN_WORDS).map((one) => inWords(one, drawing)),
      result: location.result,
    };
  }

  async workOut(ticket: Ticket): Promise<Location> {
    const drawing = await this.sites.drawing(ticket.siteId, ticket.asBuiltVersion);
    const heard = await this.observations.listOfTicket(ticket.id);
    const closedAt = await this.lastClosed(ticket);
    const evidence = toEvidence(drawing, heard, closedAt);
    const now = evidence.used[0]?.observedAt ?? ticket.openedAt;
    const exposure = siteExposure(drawing, now);
    const before = await this.record.heardBefore(ticket.siteId, ticket.id, now);
    const proofs = toProofs(drawing, before, now);
    const found = foundBy(await this.record.workAt(ticket.siteId));
    const record = siteRecord(
      { siteId: ticket.siteId, asBuilt: drawing, proofs, found },
      await this.learned.rates(),
      now,
    );
    const request = { ...evidence.request, exposureDays: exposure.days };
    const expected = expectFaults(request.trunks, record);
    const result = locate(request, undefined, expected);
    const passing =
      evidence.inSittings &&
      comesAndGoes({ ...evidence.inSittings, exposureDays: exposure.days }, undefined, expected);
    return {
      drawing,
      evidence,
      provenPoints: proofs.length,
      exposure,
      request,
      expected,
      result,
      passing,
      suspects: suspects(result, passing),
    };
  }

  /** When it was closed before it was taken up again; of a closed one, the time before. */
  private async lastClosed(ticket: Ticket): Promise<Date | null> {
    const moves = await this.entries.listOfKind(ticket.id, ['move']);
    const closings = moves.filter(({ details }) => details.to === 'closed');
    return closings.at(ticket.state === 'closed' ? -2 : -1)?.happenedAt ?? null;
  }
}

function inWords(
  { place, probability, comesAndGoes: passing, components }: Suspect,
  drawing: AsBuilt,
): PlaceInWordsDto {
  const nameNode = nameNodesOf(drawing);
  const words = placeInWords(place, nameNode);
  return {
    words: `${passing ? 'comes and goes: ' : ''}${words}, ${Math.round(probability * 100)} %`,
    place,
    probability,
    comesAndGoes: passing,
    components: components.map(({ component, faulty }) => {
      return { component, words: componentInWords(component, place, nameNode), faulty };
    }),
    silentIfSo: roomsBehind(place, drawing),
  };
}
