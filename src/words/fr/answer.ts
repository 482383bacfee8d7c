import type { FunctionName } from '../../plan/functions.js';
import type { StationMode } from '../../plan/modes.js';
import type { AnswerWords, OneSaid, ToldCause } from '../answer-words.js';
import { namedGroup } from '../head-end-mode.js';
import { FR_FORMATS as formats } from './formats.js';
import { frPlace as place } from './places.js';
import { FR_LEFT_OUT } from './left-out.js';

const FUNCTIONS: Readonly<Record<FunctionName, string>> = {
  lamp: 'le voyant',
  announcement: 'les annonces',
  bell: 'la sonnerie',
  music: 'la musique',
  'room-call': 'les appels à une salle',
  talkback: 'la réponse depuis la salle',
};

const HEAD_END: Readonly<Record<string, string>> = {
  power: 'l’alimentation de la centrale',
  amplifier: 'l’amplificateur de la centrale',
  receiver: 'le récepteur des réponses dans la centrale',
  selector: 'le sélecteur de salles de la centrale',
  'bell-source': 'le programme de l’horloge ou la source de la sonnerie dans la centrale',
  microphone: 'le micro de la centrale',
  'line-input': 'l’entrée musique de la centrale',
};

const GROUP: Readonly<Record<string, (group: string) => string>> = {
  'group-off': (group) => `le groupe « ${group} » coupé à la centrale`,
  'group-bell-off': (group) => `la sonnerie du groupe « ${group} » coupée à la centrale`,
  'group-announcement-off': (group) => `les annonces du groupe « ${group} » coupées à la centrale`,
};

const UNIT: Readonly<Record<StationMode, string>> = {
  dead: 'l’appareil y est mort',
  speaker: 'le haut-parleur qui s’y trouve',
  'volume-down': 'le volume y est baissé',
  microphone: 'le micro qui s’y trouve',
  address: 'l’adresse qui y est réglée',
  lamp: 'le voyant qui s’y trouve',
  'bell-setting': 'son réglage l’exclut de la sonnerie',
  'announcement-setting': 'son réglage l’exclut des annonces',
  'music-setting': 'son réglage l’exclut de la musique',
  'short-supply': 'un court-circuit dans l’appareil qui s’y trouve',
};

function cause(told: ToldCause, nameNode: Parameters<AnswerWords['cause']>[1]): string {
  switch (told.kind) {
    case 'span':
    case 'port':
      return place(told.place, nameNode);
    case 'comes-and-goes':
      return `quelque chose qui va et vient : ${place(told.place, nameNode)}`;
    case 'head-end': {
      const { mode, group } = namedGroup(told.mode);
      return GROUP[mode]?.(group) ?? HEAD_END[mode] ?? `la centrale : ${mode}`;
    }
    case 'short':
      return `un court-circuit quelque part sur la ligne ${told.trunk}`;
    case 'weak-feed':
      return `un mauvais contact quelque part sur la ligne ${told.trunk}`;
    case 'own-unit':
      if (told.node === null) return 'l’appareil propre à chaque salle';
      return told.mode === null ? 'l’appareil de la salle ou ses réglages' : UNIT[told.mode];
    case 'nothing':
      return 'rien n’est en panne';
    case 'rest':
      return 'autre chose';
  }
}

const HEARD = { works: 'cela marche', weak: 'c’est faible', fails: 'cela ne marche pas' };

const saying = ({ saidBy, outcome }: OneSaid) => `selon ${saidBy}, ${HEARD[outcome]}`;

export const FR_ANSWER: AnswerWords = {
  functions: FUNCTIONS,
  range: (first, last) => `${first} à ${last}`,
  missedIn: (functions, rooms) => `${formats.and(functions)} dans ${formats.and(rooms)}`,
  cause,
  trouble: (missed, causes) =>
    `${missed.join(' ; ')} : ${causes.map(({ words, percent }) => `${words}, ${formats.percent(percent)}`).join(' ; ')}`,
  alsoBroken: (where, chance) =>
    `peut être aussi en panne, bien que rien de ce qui est signalé n’en vienne : ${where}, ${formats.chance(chance)}`,
  contradiction: (room, name, said) =>
    `${room}, ${FUNCTIONS[name]} : ${formats.and(said.map(saying))}. Les deux ne peuvent être vrais : redemandez sur place.`,
  saidBoth: (room, name) =>
    `${room}, ${FUNCTIONS[name]} : quelqu’un a dit que cela marche, quelqu’un d’autre que non. Les deux ne peuvent être vrais : réessayez sur place.`,
  againstTheRest: (room, name, said) =>
    `${room}, ${FUNCTIONS[name]} : ${saying(said)}. Cela ne s’accorde guère avec tout le reste : redemandez sur place.`,
  drawing: {
    branch: (rooms, at, chance) =>
      `le plan est peut-être faux : ${formats.and(rooms)} partent peut-être d’une dérivation dans ${at}, ${formats.chance(chance)}`,
    end: (rooms, trunk, chance) =>
      `le plan est peut-être faux : ${formats.and(rooms)} se trouvent peut-être après la fin de la ligne ${trunk}, ${formats.chance(chance)}`,
    swapped: (rooms, chance) =>
      `le plan est peut-être faux : ${formats.and(rooms)} portent peut-être le nom l’une de l’autre, ${formats.chance(chance)}`,
    countCables: (at, asDrawn, alternative) =>
      `comptez les câbles dans ${at} : ${asDrawn} selon le plan, ${alternative} s’il est faux ainsi`,
    compareNames: (rooms) =>
      `comparez les noms de ${formats.and(rooms)} avec ceux qui sont sur les portes`,
  },
  leftOut: FR_LEFT_OUT,
  halve: (room, trunk) =>
    `débranchez tout ce qui suit après ${room} : si la ligne ${trunk} revient, le court-circuit est derrière ; sinon, devant ; puis encore par moitié`,
  first: {
    leftOut: (why) =>
      `D’après ce qu’on sait, il n’y a rien à faire. De ce qui a été signalé, ceci n’est pas retenu : ${why}.`,
    byOffice: (check, minutes) =>
      `D’abord : ${check}. Personne n’a à se déplacer, cela prend ${formats.plural(minutes, { one: 'environ une minute', other: 'environ # minutes' })} et c’est ce qui en dit le plus pour ce temps.`,
    atDrawing: (look) =>
      `D’abord : ${look}. Ce qui a été dit ne s’accorde pas avec le plan, et ceci le tranche.`,
    drawnWrong: (rooms) =>
      `D’abord : faites corriger le relevé dans ${formats.and(rooms)}. Quelqu’un a regardé, et ce n’est pas comme sur le plan.`,
    goTo: (where, chance) =>
      `D’abord : allez voir ici : ${where}. À ${formats.chance(chance)}, cela explique ce qui est signalé.`,
    onSite: (check) =>
      `D’abord, sur place : ${check}. Aucun endroit ne se détache nettement, et c’est ce qui en dit le plus.`,
    nothing: 'Rien n’est signalé qui ne marche pas.',
  },
};
