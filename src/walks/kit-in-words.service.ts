import { Injectable } from '@nestjs/common';
import { currentLanguage } from '../shared/request-language.js';
import { SitesService } from '../sites/sites.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { TicketLogService } from '../tickets/ticket-log.service.js';
import { TicketService } from '../tickets/ticket.service.js';
import { wordsIn } from '../words/index.js';
import type { KitInWordsDto } from './kit-in-words.dto.js';
import { cautionsFor } from './walk-cautions.js';

const MOST_SAID = 30;

/** Gives pages what is known of a ticket in words, where there is no drawing to work it out on. */
@Injectable()
export class KitInWordsService {
  constructor(
    private readonly sites: SitesService,
    private readonly tickets: TicketService,
    private readonly log: TicketLogService,
    private readonly transaction: FirmTransaction,
  ) {}

  async kit(ticketId: string): Promise<KitInWordsDto> {
    await this.transaction.beOfOneMoment();
    const { number, siteId, urgentReason } = await this.tickets.get(ticketId);
    const { id, name, address, zone, safetyNotes, servesEmergencyCalls } =
      await this.sites.get(siteId);
    const site = { id, name, address, zone, safetyNotes, servesEmergencyCalls };
    const kinds = ['report', 'note', 'mending'] as const;
    const entryIds = await this.log.listLastIdsTogether(ticketId);
    const entries = await this.log.listLastTogether(ticketId, [...kinds], MOST_SAID);
    return {
      ticketId,
      number,
      urgentReason,
      said: entries.map(({ saidBy, happenedAt, details }) => ({
        saidBy,
        happenedAt,
        words: details.note ?? details.what ?? '',
        callBackPhone: details.callBackPhone ?? null,
        oddities: [...(details.oddities ?? [])],
      })),
      entryIds,
      site,
      cautions: cautionsFor(site, wordsIn(currentLanguage())),
    };
  }
}
