import { Injectable } from '@nestjs/common';
import { locate, type LocateResult, type PlaceChance } from '../locator/index.js';
import { SitesService } from '../sites/sites.service.js';
import { componentInWords } from './component-in-words.js';
import { type Drawing, nameNodesOf, oldestInstallation } from './drawing.js';
import { toEvidence } from './evidence.js';
import { exposureSince } from './exposure.js';
import type { LocationDto, PlaceInWordsDto } from './location.dto.js';
import { ObservationRepository } from './observation.repository.js';
import { placeInWords } from './place-in-words.js';
import { roomsBehind } from './rooms-behind.js';
import { TicketRepository } from './ticket.repository.js';
import { TicketService } from './ticket.service.js';

/** Beyond these the places are in `result`. */
const PLACES_IN_WORDS = 5;

/** Works out where a ticket's trouble lies, from its drawing and its observations. */
@Injectable()
export class LocationService {
  constructor(
    private readonly tickets: TicketRepository,
    private readonly observations: ObservationRepository,
    private readonly reader: TicketService,
    private readonly sites: SitesService,
  ) {}

  async locate(ticketId: string): Promise<LocationDto> {
    const ticket = await this.reader.find(ticketId);
    const drawing = await this.sites.drawing(ticket.siteId, ticket.asBuiltVersion);
    const heard = await this.observations.listOfTicket(ticket.id);
    const provenAt = await this.tickets.lastClosedAt(ticket.siteId, ticket.openedAt);
    const exposure = exposureSince(ticket.openedAt, provenAt, oldestInstallation(drawing));
    const { request, used, leftOut } = toEvidence(drawing, heard, exposure.days);
    const result: LocateResult = locate(request);
    return {
      ticketId: ticket.id,
      asBuiltVersion: ticket.asBuiltVersion,
      exposureDays: exposure.days,
      exposureSince: exposure.reason,
      observationsUsed: used.map(({ id }) => id),
      observationsLeftOut: leftOut.map(({ id }) => id),
      places: result.places.slice(0, PLACES_IN_WORDS).map((place) => inWords(place, drawing)),
      result,
    };
  }
}

function inWords(
  { place, probability, components }: PlaceChance,
  drawing: Drawing,
): PlaceInWordsDto {
  const nameNode = nameNodesOf(drawing);
  const words = placeInWords(place, nameNode);
  return {
    words: `${words}, ${Math.round(probability * 100)} %`,
    place,
    probability,
    components: components.map(({ component, modes }) => ({
      component,
      words: componentInWords(component, place, nameNode),
      faulty: Object.entries(modes)
        .filter(([mode]) => mode !== 'ok')
        .reduce((sum, [, chance]) => sum + chance, 0),
    })),
    silentIfSo: roomsBehind(place, drawing),
  };
}
