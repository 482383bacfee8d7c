import type { FunctionName } from '../../plan/functions.js';
import { type FurtherLeftOut, leftOutWords, type PlainLeftOut } from '../left-out-words.js';

/** As one speaks of a function by itself. */
export const ES_ONE: Readonly<Record<FunctionName, string>> = {
  lamp: 'el piloto',
  announcement: 'un aviso',
  bell: 'el timbre',
  music: 'la música',
  'room-call': 'una llamada a la sala',
  talkback: 'la respuesta desde la sala',
};

const PLAIN: Readonly<Record<PlainLeftOut, string>> = {
  withdrawn: 'fue retirado',
  'before-closing': 'es de antes de que se cerrara el aviso',
  'before-mending': 'es de antes de una reparación',
  'after-mending':
    'es de después de una reparación, desde la que nadie ha dicho que algo no funcione',
  'said-again': 'la misma persona lo dijo otra vez después',
  'looked-again': 'la misma persona lo miró otra vez después',
  'read-again': 'la misma persona lo midió otra vez después',
  'no-such-place': 'es de un lugar que no está en el plano del aviso',
  'unit-out': 'es de un equipo puenteado o retirado',
  'no-such-group':
    'es de un grupo que no está en el plano del aviso, o junto al que hay demasiados otros',
};

function further(why: FurtherLeftOut): string {
  switch (why.kind) {
    case 'no-such-node':
      return `se refiere a ${why.node}, que no está en el plano del aviso`;
    case 'no-such-disconnection':
      return `se desconectó después de ${why.node}, que no está en el plano del aviso`;
    case 'room-out':
      return `${why.room}: según el plano, el equipo está puenteado o retirado`;
    case 'never-fitted':
      return `${why.room}: según el plano, el equipo no tiene esta función (${ES_ONE[why.function]})`;
    case 'other-disconnections':
      return `no es de los últimos ${why.most} sitios donde se desconectó la línea ${why.trunk}, los únicos que cuentan`;
    case 'older':
      return `es anterior a los últimos ${why.most}, los únicos que cuentan`;
    case 'not-on-record':
      return `necesita lo que el plano no dice de la central: ${why.missing.join(', ')}`;
    case 'refused':
      return `no se puede usar: ${why.reason}`;
  }
}

export const ES_LEFT_OUT = leftOutWords(PLAIN, further);
