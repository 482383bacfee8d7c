import type { NoticeFacts, ToldVisit } from '../../notices/notice-kinds.js';
import type { NoticeWords } from '../notice-words.js';
import { EN_FORMATS as formats } from './formats.js';

const PROMISED = { response: 'Somebody on site', restore: 'Working again' };

function mail(facts: NoticeFacts) {
  const { site } = facts;
  switch (facts.kind) {
    case 'new-report': {
      const rooms = formats.plural(facts.silentRooms, { one: '# room', other: '# rooms' });
      return {
        subject: `${site.name}: something was reported`,
        text: `Ticket ${facts.ticket.number}, ${site.name}: ${rooms} said to be silent or faint so far.${urgent(facts)}`,
      };
    }
    case 'breach-near': {
      const due = formats.instant(facts.promise.dueAt, site.zone);
      const what = PROMISED[facts.promise.kind];
      return {
        subject: `${site.name}: promised by ${due}`,
        text: `Ticket ${facts.ticket.number}, ${site.name}. ${what} was promised by ${due}, and most of the time is gone.`,
      };
    }
    case 'visit-tomorrow':
      return {
        subject: `${site.name}: a visit tomorrow`,
        text: `${formats.day(facts.visit.on)}${hours(facts.visit)}: ${facts.visit.purpose}, at ${site.name}. ${
          facts.visit.technician === null
            ? 'Nobody is named yet.'
            : `${facts.visit.technician} comes.`
        }`,
      };
    case 'work-to-sign':
      return {
        subject: `${site.name}: work to sign`,
        text: `The visit of ${formats.day(facts.visit.on)} at ${site.name} is done (${facts.visit.purpose}). Somebody there is to sign for it.`,
      };
  }
}

/** On a line of its own. */
function urgent({ urgentReason }: { urgentReason?: string | null }): string {
  return urgentReason == null ? '' : `\n\nCannot wait: ${urgentReason}`;
}

function hours(visit: ToldVisit): string {
  return visit.fromTime === null ? '' : `, ${visit.fromTime} to ${visit.untilTime}`;
}

export const EN_NOTICE: NoticeWords = {
  language: 'en',
  mail,
  wayOut: (link) => `You asked to be told of this. To have no more such mails, open:\n${link}`,
  page: {
    heading: 'No more of these mails?',
    question: 'Mails about what you asked to be told of will not be sent any more.',
    end: 'Send no more',
    ended: 'It is ended: no such mail is sent any more.',
    again: 'You can ask for them again when you are signed in.',
    over: 'This link is of no use any more: load it anew from the newest mail.',
  },
};
