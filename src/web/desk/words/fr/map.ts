import type { DeskWords } from '../words-en.js';

export const FR_MAP: DeskWords['map'] = {
  title: 'Carte',
  toMap: 'Sur la carte',
  theDay: 'Le plan du jour',
  notPlanned: 'La journée n’est pas encore planifiée : aucun trajet n’est dessiné.',
  nonePlaced: 'Aucun site n’a encore de coordonnées. Elles se donnent avec le site.',
  drawing: (sites, km) =>
    `Carte de ${sites === 1 ? '1 site' : `${sites} sites`}, le nord en haut ; la barre mesure ${km} km. Les tableaux ci-dessous disent la même chose.`,
  north: 'N',
  km: (km) => `${km} km`,
  asTable: 'Sites et leurs pannes',
  heads: {
    site: 'Le site',
    silent: 'Muet maintenant',
    left: 'Temps restant',
    today: 'Qui vient aujourd’hui',
    place: 'Latitude, longitude',
    technician: 'Technicien',
    begins: 'La journée commence à',
    order: 'Aujourd’hui, dans cet ordre',
  },
  nothingSilent: 'rien de muet',
  comes: (technician, order) => `${technician}, étape ${order}`,
  at: (latitude, longitude) => `${latitude} ; ${longitude}`,
  starts: 'Où commencent les journées',
  unplaced: 'Hors de la carte',
  unplacedHint: 'Personne n’a dit où se trouvent ces sites.',
  notOnWay: (technician, sites) =>
    `Absents du trajet dessiné de ${technician}, faute de coordonnées : ${sites}.`,
  noStart: (technician) =>
    `Le trajet de ${technician} n’est pas dessiné : personne n’a indiqué où commence la journée.`,
  withoutName: (count) =>
    count === 1
      ? '1 nom n’a pas de place sur la carte : il est dans le tableau.'
      : `${count} noms n’ont pas de place sur la carte : ils sont dans le tableau.`,
  legend: {
    silent: 'quelque chose y est muet',
    quiet: 'rien n’est muet',
    start: 'où commence la journée de quelqu’un',
    route: (technician) => `trajet du jour de ${technician}`,
  },
};
