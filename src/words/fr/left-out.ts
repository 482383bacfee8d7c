import type { FunctionName } from '../../plan/functions.js';
import { type FurtherLeftOut, leftOutWords, type PlainLeftOut } from '../left-out-words.js';

/** As one speaks of a function by itself. */
export const FR_ONE: Readonly<Record<FunctionName, string>> = {
  lamp: 'le voyant',
  announcement: 'une annonce',
  bell: 'la sonnerie',
  music: 'la musique',
  'room-call': 'un appel à la salle',
  talkback: 'la réponse depuis la salle',
};

const PLAIN: Readonly<Record<PlainLeftOut, string>> = {
  withdrawn: 'a été retiré',
  'before-closing': 'date d’avant la clôture du dossier',
  'before-mending': 'date d’avant une réparation',
  'after-mending': 'date d’après une réparation, depuis laquelle rien n’a été dit en panne',
  'said-again': 'la même personne l’a redit plus tard',
  'looked-again': 'la même personne a regardé de nouveau plus tard',
  'read-again': 'la même personne a mesuré de nouveau plus tard',
  'no-such-place': 'concerne un endroit qui n’est pas sur le plan du dossier',
  'unit-out': 'concerne un appareil ponté ou retiré',
  'no-such-group':
    'concerne un groupe qui n’est pas sur le plan du dossier, ou à côté duquel il y en a trop d’autres',
};

function further(why: FurtherLeftOut): string {
  switch (why.kind) {
    case 'no-such-node':
      return `concerne ${why.node}, qui n’est pas sur le plan du dossier`;
    case 'no-such-disconnection':
      return `débranché après ${why.node}, qui n’est pas sur le plan du dossier`;
    case 'room-out':
      return `${why.room} : d’après le plan, l’appareil est ponté ou retiré`;
    case 'never-fitted':
      return `${why.room} : d’après le plan, l’appareil n’a pas cette fonction (${FR_ONE[why.function]})`;
    case 'other-disconnections':
      return `n’est pas des ${why.most} derniers endroits où la ligne ${why.trunk} a été débranchée, les seuls qui comptent`;
    case 'older':
      return `est antérieur aux ${why.most} derniers, les seuls qui comptent`;
    case 'not-on-record':
      return `demande ce que le plan ne dit pas de la centrale : ${why.missing.join(', ')}`;
    case 'refused':
      return `ne peut pas servir : ${why.reason}`;
  }
}

export const FR_LEFT_OUT = leftOutWords(PLAIN, further);
