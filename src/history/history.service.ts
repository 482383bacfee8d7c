import { Injectable } from '@nestjs/common';
import { HistoryRepository } from './history.repository.js';

/** What a site's past says of its parts. */
@Injectable()
export class HistoryService {
  constructor(private readonly history: HistoryRepository) {}

  /** What was heard at the site of a ticket before an instant: see `HistoryRepository`. */
  heardBefore(siteId: string, ticketId: string, before: Date): Promise<string> {
    return this.history.heardBefore(siteId, ticketId, before);
  }
}
