import type { NoticeFacts, ToldVisit } from '../../notices/notice-kinds.js';
import type { NoticeWords } from '../notice-words.js';
import { ES_FORMATS as formats } from './formats.js';

const PROMISED = { response: 'La llegada de alguien', restore: 'Que vuelva a funcionar' };

function mail(facts: NoticeFacts) {
  const { site } = facts;
  switch (facts.kind) {
    case 'new-report': {
      const rooms = formats.plural(facts.silentRooms, { one: '# sala', other: '# salas' });
      return {
        subject: `${site.name}: se ha comunicado un problema`,
        text: `Aviso ${facts.ticket.number}, ${site.name}: por ahora, ${rooms} sin sonido o con sonido débil.${urgent(facts)}`,
      };
    }
    case 'breach-near': {
      const due = formats.instant(facts.promise.dueAt, site.zone);
      const what = PROMISED[facts.promise.kind];
      return {
        subject: `${site.name}: prometido para ${due}`,
        text: `Aviso ${facts.ticket.number}, ${site.name}. ${what} se prometió para ${due}, y ya ha pasado la mayor parte del tiempo.`,
      };
    }
    case 'visit-tomorrow':
      return {
        subject: `${site.name}: visita mañana`,
        text: `${formats.day(facts.visit.on)}${hours(facts.visit)}: ${facts.visit.purpose}, en ${site.name}. ${
          facts.visit.technician === null
            ? 'Aún no se ha nombrado a nadie.'
            : `Va ${facts.visit.technician}.`
        }`,
      };
    case 'work-to-sign':
      return {
        subject: `${site.name}: trabajo por firmar`,
        text: `La visita de ${formats.day(facts.visit.on)} en ${site.name} está hecha (${facts.visit.purpose}). Alguien del lugar debe firmarla.`,
      };
  }
}

/** On a line of its own. */
function urgent({ urgentReason }: { urgentReason?: string | null }): string {
  return urgentReason == null ? '' : `\n\nNo puede esperar: ${urgentReason}`;
}

function hours(visit: ToldVisit): string {
  return visit.fromTime === null ? '' : `, de ${visit.fromTime} a ${visit.untilTime}`;
}

export const ES_NOTICE: NoticeWords = {
  language: 'es',
  mail,
  wayOut: (link) => `Usted pidió recibir estos avisos. Para no recibir más, abra:\n${link}`,
  page: {
    heading: '¿No recibir más estos mensajes?',
    question: 'Ya no se le enviarán mensajes sobre lo que pidió que se le avisara.',
    end: 'No enviar más',
    ended: 'Hecho: ya no se envía ningún mensaje de estos.',
    again: 'Puede volver a pedirlos cuando haya iniciado sesión.',
    over: 'Este enlace ya no sirve: ábralo desde el mensaje más reciente.',
  },
};
