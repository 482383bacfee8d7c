import type { FunctionName } from '../../plan/functions.js';
import type { StationMode } from '../../plan/modes.js';
import type { AnswerWords, OneSaid, ToldCause } from '../answer-words.js';
import { namedGroup } from '../head-end-mode.js';
import { ES_FORMATS as formats } from './formats.js';
import { esPlace as place } from './places.js';
import { ES_LEFT_OUT } from './left-out.js';

const FUNCTIONS: Readonly<Record<FunctionName, string>> = {
  lamp: 'el piloto',
  announcement: 'los avisos',
  bell: 'el timbre',
  music: 'la música',
  'room-call': 'las llamadas a una sala',
  talkback: 'la respuesta desde la sala',
};

const HEAD_END: Readonly<Record<string, string>> = {
  power: 'la alimentación de la central',
  amplifier: 'el amplificador de la central',
  receiver: 'el receptor de respuestas de la central',
  selector: 'el selector de salas de la central',
  'bell-source': 'el programa del reloj o la fuente del timbre en la central',
  microphone: 'el micrófono de la central',
  'line-input': 'la entrada de música de la central',
};

const GROUP: Readonly<Record<string, (group: string) => string>> = {
  'group-off': (group) => `el grupo «${group}» desconectado en la central`,
  'group-bell-off': (group) => `el timbre del grupo «${group}» desconectado en la central`,
  'group-announcement-off': (group) =>
    `los avisos del grupo «${group}» desconectados en la central`,
};

const UNIT: Readonly<Record<StationMode, string>> = {
  dead: 'el aparato de allí está muerto',
  speaker: 'el altavoz de allí',
  'volume-down': 'el volumen bajado allí',
  microphone: 'el micrófono de allí',
  address: 'la dirección puesta allí',
  lamp: 'el piloto de allí',
  'bell-setting': 'su ajuste lo deja fuera del timbre',
  'announcement-setting': 'su ajuste lo deja fuera de los avisos',
  'music-setting': 'su ajuste lo deja fuera de la música',
  'short-supply': 'un cortocircuito en el aparato de allí',
};

function cause(told: ToldCause, nameNode: Parameters<AnswerWords['cause']>[1]): string {
  switch (told.kind) {
    case 'span':
    case 'port':
      return place(told.place, nameNode);
    case 'comes-and-goes':
      return `algo que va y viene: ${place(told.place, nameNode)}`;
    case 'head-end': {
      const { mode, group } = namedGroup(told.mode);
      return GROUP[mode]?.(group) ?? HEAD_END[mode] ?? `la central: ${mode}`;
    }
    case 'short':
      return `un cortocircuito en algún punto de la línea ${told.trunk}`;
    case 'weak-feed':
      return `una mala conexión en algún punto de la línea ${told.trunk}`;
    case 'own-unit':
      if (told.node === null) return 'el propio aparato de cada sala';
      return told.mode === null ? 'el propio aparato de la sala o sus ajustes' : UNIT[told.mode];
    case 'nothing':
      return 'no hay avería';
    case 'rest':
      return 'otra cosa';
  }
}

const HEARD = { works: 'funciona', weak: 'se oye o se ve débil', fails: 'no funciona' };

const saying = ({ saidBy, outcome }: OneSaid) => `según ${saidBy}, ${HEARD[outcome]}`;

export const ES_ANSWER: AnswerWords = {
  functions: FUNCTIONS,
  range: (first, last) => `${first} a ${last}`,
  missedIn: (functions, rooms) => `${formats.and(functions)} en ${formats.and(rooms)}`,
  cause,
  trouble: (missed, causes) =>
    `${missed.join('; ')}: ${causes.map(({ words, percent }) => `${words}, ${formats.percent(percent)}`).join('; ')}`,
  alsoBroken: (where, chance) =>
    `puede estar averiado también, aunque nada de lo avisado venga de ahí: ${where}, ${formats.chance(chance)}`,
  contradiction: (room, name, said) =>
    `${room}, ${FUNCTIONS[name]}: ${formats.and(said.map(saying))}. Las dos cosas no pueden ser: pregunte allí otra vez.`,
  saidBoth: (room, name) =>
    `${room}, ${FUNCTIONS[name]}: alguien dijo que funciona y otra persona que no. Las dos cosas no pueden ser: pruebe allí otra vez.`,
  againstTheRest: (room, name, said) =>
    `${room}, ${FUNCTIONS[name]}: ${saying(said)}. Apenas encaja con todo lo demás: pregunte allí otra vez.`,
  drawing: {
    branch: (rooms, at, chance) =>
      `el plano puede estar mal: quizá ${formats.and(rooms)} cuelguen de un ramal en ${at}, ${formats.chance(chance)}`,
    end: (rooms, trunk, chance) =>
      `el plano puede estar mal: quizá ${formats.and(rooms)} estén después del final de la línea ${trunk}, ${formats.chance(chance)}`,
    swapped: (rooms, chance) =>
      `el plano puede estar mal: quizá ${formats.and(rooms)} tengan los nombres cambiados, ${formats.chance(chance)}`,
    countCables: (at, asDrawn, alternative) =>
      `cuente los cables en ${at}: ${asDrawn} según el plano, ${alternative} si está mal así`,
    compareNames: (rooms) =>
      `compare los nombres de ${formats.and(rooms)} con los que hay en las puertas`,
  },
  leftOut: ES_LEFT_OUT,
  halve: (room, trunk) =>
    `desconecte todo lo que sigue después de ${room}: si la línea ${trunk} vuelve, el cortocircuito está detrás; si no, delante; y otra vez por la mitad`,
  first: {
    leftOut: (why) =>
      `Por lo que se sabe no hay nada que hacer. De lo avisado no se tiene en cuenta: ${why}.`,
    byOffice: (check, minutes) =>
      `Primero: ${check}. Nadie tiene que desplazarse, lleva ${formats.plural(minutes, { one: 'cerca de un minuto', other: 'unos # minutos' })} y es lo que más dice por ese tiempo.`,
    atDrawing: (look) =>
      `Primero: ${look}. Lo que se dijo no encaja con el plano, y esto lo aclara.`,
    drawnWrong: (rooms) =>
      `Primero: haga corregir el registro en ${formats.and(rooms)}. Alguien lo miró, y no es como en el plano.`,
    goTo: (where, chance) =>
      `Primero: vaya a mirar aquí: ${where}. Con ${formats.chance(chance)} explica lo que se avisó.`,
    onSite: (check) =>
      `Primero, en el lugar: ${check}. Ningún sitio destaca claramente, y esto es lo que más dice.`,
    nothing: 'No se ha avisado de nada que no funcione.',
  },
};
