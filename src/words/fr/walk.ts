import type { NameNode, WalkWords } from '../words.js';
import { frComponent as component, FR_HEAD_END } from './places.js';

const end = (trunk: string, node: string | null, nameNode: NameNode) =>
  node === null ? FR_HEAD_END : nameNode(trunk, node);

export const FR_WALK: WalkWords = {
  tryFunction: {
    lamp: (room) => `Regarder le voyant dans ${room}`,
    announcement: (room) => `Écouter une annonce dans ${room}`,
    bell: (room) => `Écouter la sonnerie dans ${room}`,
    music: (room) => `Écouter la musique dans ${room}`,
    'room-call': (room) => `Faire appeler ${room}`,
    talkback: (room) => `Répondre depuis ${room}`,
  },
  lampSeen: ['il est allumé', 'il éclaire peu', 'il est éteint'],
  heard: ['on l’entend', 'on l’entend à peine', 'on n’entend rien'],
  measureOutput: (trunk) => `Mesurer à la centrale la sortie de la ligne ${trunk}`,
  measureArrival: (room) => `Mesurer ce qui arrive à l’ENTRÉE dans ${room}`,
  allThere: 'tout y est',
  somethingMissing: 'il manque quelque chose',
  disconnect: (room) => `Débrancher tout ce qui suit après ${room} et voir si la ligne revient`,
  liftOff: (room) => `Débrancher le câble à l’ENTRÉE dans ${room} et voir si la ligne revient`,
  comesBack: 'elle revient',
  doesNotComeBack: 'elle ne revient pas',
  open: (part, place, nameNode) => {
    switch (place.kind) {
      case 'head-end':
        return 'Ouvrir la centrale';
      case 'port':
        return `Regarder le fusible et les bornes de sortie de la ligne ${place.trunk}`;
      case 'station':
        return `Examiner l’appareil dans ${nameNode(place.trunk, place.node)}`;
      case 'span': {
        if (part !== 'cable') return `Ouvrir les ${component(part, place, nameNode)}`;
        const to = nameNode(place.trunk, place.to);
        return `Suivre le câble depuis ${end(place.trunk, place.from, nameNode)} jusqu’à ${to}`;
      }
    }
  },
  remake: (part, place, nameNode) => {
    switch (place.kind) {
      case 'head-end':
        return 'Reprendre la centrale, module par module';
      case 'port':
        return `Refaire le fusible et les bornes de sortie de la ligne ${place.trunk}`;
      case 'station':
        return `Changer l’appareil dans ${nameNode(place.trunk, place.node)}`;
      case 'span': {
        if (part !== 'cable') return `Refaire les ${component(part, place, nameNode)}`;
        const to = nameNode(place.trunk, place.to);
        return `Poser un câble d’essai depuis ${end(place.trunk, place.from, nameNode)} jusqu’à ${to}`;
      }
    }
  },
  allWorks: 'tout marche',
  stillFails: 'quelque chose ne marche toujours pas',
  atFault: 'en défaut',
  sound: 'en bon état',
  soundAnd: (seen) => `en bon état, et ${seen}`,
  from: (where, minutes) => `Depuis ${where}, environ ${minutes} min jusqu’à ce que tout remarche.`,
  nothingSuspect: 'Rien n’est suspect.',
  step: (label, minutes) => `${label} (${minutes} min).`,
  ending: (seen, chance, next) => `Si constaté : ${seen} (${chance}) : ${next}`,
  otherwise: (chance, next) => `Sinon (${chance}) : ${next}`,
  mendIt: 'en défaut, le réparer',
  mendItAndIf: 'en défaut, le réparer ; si quelque chose ne marche toujours pas',
  everythingWorks: 'Tout marche.',
  askAgain: 'Redemander ici.',
  cautions: [
    'Isolez et vérifiez l’absence de tension avant d’ouvrir une centrale ou une jonction.',
    'Les lignes de haut-parleurs peuvent porter des tensions dangereuses ; les parties du secteur sont réservées aux personnes habilitées.',
    'Attention aux échelles et au travail en hauteur.',
    'Les salles sont occupées et des enfants peuvent être présents : venez accompagné, convenez des heures.',
    'Renseignez-vous sur l’amiante et les calfeutrements coupe-feu avant de percer.',
    'Les règles locales et celles du site passent d’abord. Ce plan conseille ; la personne sur place décide.',
  ],
  emergencyCaution:
    'Ce système sert à l’évacuation ou aux appels d’urgence : prévenez la personne responsable, mettez en place le remplacement convenu et notez les heures hors service.',
};
