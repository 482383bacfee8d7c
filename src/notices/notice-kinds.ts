import type { Happening } from '../jobs/job-kinds.js';

/** What people and systems may ask to hear of. */
export const NOTICE_KINDS = [
  'new-report',
  'breach-near',
  'visit-tomorrow',
  'work-to-sign',
] as const;

export type NoticeKind = (typeof NOTICE_KINDS)[number];

/** How they hear of it. */
export const NOTICE_WAYS = ['mail', 'webhook'] as const;

export type NoticeWay = (typeof NOTICE_WAYS)[number];

interface ToldSite {
  id: string;
  name: string;
  zone: string;
}

interface ToldTicket {
  id: string;
  number: number;
}

export interface ToldVisit {
  id: string;
  on: string;
  fromTime: string | null;
  untilTime: string | null;
  purpose: string;
  /** Null: nobody is named yet. */
  technician: string | null;
}

/** What is told: the same in a mail and to a system. */
export type NoticeFacts = { site: ToldSite } & (
  | {
      kind: 'new-report';
      ticket: ToldTicket;
      /** Rooms of the ticket that are silent or weak, as far as was said. */
      silentRooms: number;
      /** Why it cannot wait, as was said last; null where nobody said so. Left out by what an older process wrote down. */
      urgentReason?: string | null;
    }
  | {
      kind: 'breach-near';
      ticket: ToldTicket;
      promise: { kind: 'response' | 'restore'; dueAt: string };
    }
  | { kind: 'visit-tomorrow' | 'work-to-sign'; visit: ToldVisit }
);

/** What one happening is known by: a second word of it is no second notice. */
export function happeningKey(happening: Happening): string {
  switch (happening.kind) {
    case 'new-report':
      return `new-report ${happening.entryId}`;
    case 'breach-near':
      return `breach-near ${happening.ticketId} ${happening.promise} ${happening.dueAt}`;
    case 'visit-tomorrow':
      return `visit-tomorrow ${happening.visitId} ${happening.on}`;
    case 'work-to-sign':
      return `work-to-sign ${happening.visitId}`;
  }
}
