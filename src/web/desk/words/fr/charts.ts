import type { DeskWords } from '../words-en.js';

export const FR_CHARTS: DeskWords['charts'] = {
  hours: (hours) => `${hours} h`,
  days: (days) => `${days} j`,
  cost: {
    title: 'À quoi est allée chaque année, face à son forfait',
    year: (year) => `année ${year}`,
    said: (parts, cost, fee) => `${parts} = ${cost}, sur un forfait de ${fee}`,
  },
  time: {
    title: 'Heures par site et par année',
    site: 'sur place',
    way: 'en route',
    said: (site, way) => `${site} h sur place, ${way} h en route`,
  },
  promises: {
    title: 'Heures couvertes prises par chaque ticket, face à la promesse',
    taken: 'a pris ce temps',
    promised: 'promis',
    label: (number, promise) => `Ticket n° ${number}, ${promise}`,
    said: (taken, promised, isOpen) => `${isOpen ? 'jusqu’ici ' : ''}${taken} h sur ${promised} h`,
    left: (count) =>
      `${count} autres sont seulement dans le tableau ; ceux-ci ont pris la plus grande part de ce qui était promis.`,
  },
  availability: {
    title: 'Quelle part du temps couvert chaque fonction était là',
    there: 'était là',
    left: (count) =>
      `${count} autres sont seulement dans le tableau ; celles-ci étaient le moins là.`,
  },
  failures: {
    title: 'Les pannes comme elles sont venues',
    expected: (count, mean, least, most) =>
      `Pannes de l’année jusqu’ici : ${count}. D’après tout le relevé on en attendait ${mean}, d’après ses limites de ${least} à ${most}.`,
    legend:
      'La ligne épaisse compte les pannes. La ligne en tirets est ce que laisse attendre le temps moyen entre pannes, la zone teintée ce que laissent attendre ses limites.',
    legendSteps: 'La ligne épaisse compte les pannes.',
  },
  mtbf: {
    title: 'Jours entre pannes de chaque site, avec leurs limites',
    limits:
      'de la limite basse à la haute, le point est la moyenne ; une flèche : pas de limite haute',
    said: (mean, low, high) =>
      `${mean} j, ${high === null ? `au moins ${low} j` : `de ${low} j à ${high} j`}`,
  },
};
