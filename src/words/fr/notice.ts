import type { NoticeFacts, ToldVisit } from '../../notices/notice-kinds.js';
import type { NoticeWords } from '../notice-words.js';
import { FR_FORMATS as formats } from './formats.js';

const PROMISED = { response: 'L’arrivée de quelqu’un', restore: 'Le retour en service' };

function mail(facts: NoticeFacts) {
  const { site } = facts;
  switch (facts.kind) {
    case 'new-report': {
      const rooms = formats.plural(facts.silentRooms, { one: '# salle', other: '# salles' });
      return {
        subject: `${site.name} : un problème a été signalé`,
        text: `Dossier ${facts.ticket.number}, ${site.name} : pour l’instant, ${rooms} sans son ou avec un son faible.${urgent(facts)}`,
      };
    }
    case 'breach-near': {
      const due = formats.instant(facts.promise.dueAt, site.zone);
      const what = PROMISED[facts.promise.kind];
      return {
        subject: `${site.name} : promis pour ${due}`,
        text: `Dossier ${facts.ticket.number}, ${site.name}. ${what} a été promis pour ${due}, et la plus grande partie du délai est passée.`,
      };
    }
    case 'visit-tomorrow':
      return {
        subject: `${site.name} : une visite demain`,
        text: `${formats.day(facts.visit.on)}${hours(facts.visit)} : ${facts.visit.purpose}, à ${site.name}. ${
          facts.visit.technician === null
            ? 'Personne n’est encore désigné.'
            : `Intervenant : ${facts.visit.technician}.`
        }`,
      };
    case 'work-to-sign':
      return {
        subject: `${site.name} : travail à signer`,
        text: `La visite du ${formats.day(facts.visit.on)} à ${site.name} est faite (${facts.visit.purpose}). Quelqu’un sur place doit la signer.`,
      };
  }
}

/** On a line of its own. */
function urgent({ urgentReason }: { urgentReason?: string | null }): string {
  return urgentReason == null ? '' : `\n\nNe peut pas attendre : ${urgentReason}`;
}

function hours(visit: ToldVisit): string {
  return visit.fromTime === null ? '' : `, de ${visit.fromTime} à ${visit.untilTime}`;
}

export const FR_NOTICE: NoticeWords = {
  language: 'fr',
  mail,
  wayOut: (link) =>
    `Vous avez demandé à être prévenu. Pour ne plus recevoir ces messages, ouvrez :\n${link}`,
  page: {
    heading: 'Ne plus recevoir ces messages ?',
    question: 'Les messages que vous aviez demandés ne vous seront plus envoyés.',
    end: 'Ne plus envoyer',
    ended: 'C’est fait : aucun message de ce genre n’est plus envoyé.',
    again: 'Vous pouvez les redemander une fois connecté.',
    over: 'Ce lien ne sert plus : ouvrez celui du message le plus récent.',
  },
};
