import type { OwedAtSite } from './book-visit-page.js';

/** What somebody books: a visit that was promised, or one because something does not work. */
export type BookedKind = 'planned' | 'call-out';

/** A visit as it is typed. */
export interface VisitDraft {
  kind: BookedKind;
  technicianId: string;
  on: string;
  fromTime: string;
  untilTime: string;
  purpose: string;
  /** The site's open tickets that it is for. */
  ticketIds: string[];
  /** Why somebody must go, where the office was not asked first. */
  whyGo: string;
}

/** As the service is asked; what is left empty is `null`. */
export function toVisit(siteId: string, draft: VisitDraft, usualPurpose: string) {
  const { kind, technicianId, on, fromTime, untilTime, purpose, ticketIds } = draft;
  return {
    ...{ siteId, kind, on, ticketIds },
    upkeep: kind === 'planned',
    technicianId: technicianId || null,
    fromTime: fromTime || null,
    untilTime: untilTime || null,
    purpose: purpose.trim() || usualPurpose,
  };
}

/** Its best day, or the first that has not gone by. */
export function bestDayFrom(today: string, { ideal, from }: Pick<OwedAtSite, 'ideal' | 'from'>) {
  const best = ideal ?? from;
  return best < today ? today : best;
}
