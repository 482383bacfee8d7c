import type { NoticeFacts, ToldVisit } from '../../notices/notice-kinds.js';
import type { NoticeWords } from '../notice-words.js';
import { HI_FORMATS as formats } from './formats.js';

const PROMISED = { response: 'किसी का पहुँचना', restore: 'फिर से चालू होना' };

function mail(facts: NoticeFacts) {
  const { site } = facts;
  switch (facts.kind) {
    case 'new-report': {
      const rooms = formats.plural(facts.silentRooms, { one: '# कमरा', other: '# कमरे' });
      return {
        subject: `${site.name}: ख़राबी की सूचना मिली`,
        text: `टिकट ${facts.ticket.number}, ${site.name}: अब तक ${rooms} में आवाज़ नहीं या धीमी बताई गई है।${urgent(facts)}`,
      };
    }
    case 'breach-near': {
      const due = formats.instant(facts.promise.dueAt, site.zone);
      const what = PROMISED[facts.promise.kind];
      return {
        subject: `${site.name}: वादे का समय ${due}`,
        text: `टिकट ${facts.ticket.number}, ${site.name}। ${what} ${due} तक का वादा था, और ज़्यादातर समय बीत चुका है।`,
      };
    }
    case 'visit-tomorrow':
      return {
        subject: `${site.name}: कल विज़िट है`,
        text: `${formats.day(facts.visit.on)}${hours(facts.visit)}: ${facts.visit.purpose}, ${site.name}। ${
          facts.visit.technician === null
            ? 'अभी किसी का नाम तय नहीं है।'
            : `${facts.visit.technician} आएँगे।`
        }`,
      };
    case 'work-to-sign':
      return {
        subject: `${site.name}: काम पर हस्ताक्षर बाक़ी`,
        text: `${site.name} की ${formats.day(facts.visit.on)} की विज़िट पूरी हुई (${facts.visit.purpose})। वहाँ किसी को हस्ताक्षर करने हैं।`,
      };
  }
}

/** On a line of its own. */
function urgent({ urgentReason }: { urgentReason?: string | null }): string {
  return urgentReason == null ? '' : `\n\nदेर नहीं हो सकती: ${urgentReason}`;
}

function hours(visit: ToldVisit): string {
  return visit.fromTime === null ? '' : `, ${visit.fromTime} से ${visit.untilTime}`;
}

export const HI_NOTICE: NoticeWords = {
  language: 'hi',
  mail,
  wayOut: (link) => `आपने यह सूचना माँगी थी। आगे ऐसे मेल न पाने के लिए खोलें:\n${link}`,
  page: {
    heading: 'ये मेल बंद करें?',
    question: 'जिन बातों की सूचना आपने माँगी थी, उनके मेल आगे नहीं भेजे जाएँगे।',
    end: 'आगे न भेजें',
    ended: 'हो गया: अब ऐसे मेल नहीं भेजे जाएँगे।',
    again: 'साइन इन करके आप इन्हें फिर माँग सकते हैं।',
    over: 'यह लिंक अब काम का नहीं है: सबसे नए मेल का लिंक खोलें।',
  },
};
