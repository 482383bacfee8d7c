import type { FunctionName } from '../../plan/functions.js';
import { groupSetting, type GroupSentences, isSiteSetting } from '../head-end-mode.js';
import type { SiteSetting } from '../../locator/index.js';
import type { Words } from '../words.js';
import { ES_ANSWER } from './answer.js';
import { ES_FORMATS as formats } from './formats.js';
import { esComponent as component, ES_HEAD_END, esPlace as place } from './places.js';
import { ES_ONE as ONE } from './left-out.js';
import { ES_WALK } from './walk.js';

const TRY: Readonly<Record<FunctionName, (room: string) => string>> = {
  lamp: (room) => `mire si el piloto de ${room} está encendido`,
  announcement: (room) => `dé un aviso y pida a alguien que escuche en ${room}`,
  bell: (room) => `haga sonar el timbre y pida a alguien que escuche en ${room}`,
  music: (room) => `ponga música y pida a alguien que escuche en ${room}`,
  'room-call': (room) => `llame solo a ${room} y pregunte si se oyó allí`,
  talkback: (room) => `pida a alguien en ${room} que conteste, y escuche`,
};

const LOOK_AT: Readonly<Record<SiteSetting, string>> = {
  power: 'mire si el armario de la oficina está encendido, con su piloto iluminado',
  selector: 'mire si en el armario de la oficina están elegidas las salas correctas',
  'bell-source':
    'mire el programa del reloj: si los timbres están activados y hoy figura como día normal',
  microphone: 'mire si el micrófono de la oficina está enchufado y encendido',
  'line-input': 'pruebe la música: mire si el reproductor está encendido y con volumen',
  amplifier:
    'mire si en el armario de la oficina el aparato de sonido tiene su piloto iluminado y el volumen subido',
};

const LOOK_AT_GROUP: GroupSentences = {
  'group-off': (group) => `mire si «${group}» está conectado en el armario de la oficina`,
  'group-bell-off': (group) =>
    `mire si el timbre está conectado para «${group}» en el armario de la oficina`,
  'group-announcement-off': (group) =>
    `mire si los avisos están conectados para «${group}» en el armario de la oficina`,
};

const ASK_GROUP: GroupSentences = {
  'group-off': (group) => `¿Está conectado «${group}» en el armario de la oficina?`,
  'group-bell-off': (group) =>
    `¿Está conectado el timbre para «${group}» en el armario de la oficina?`,
  'group-announcement-off': (group) =>
    `¿Están conectados los avisos para «${group}» en el armario de la oficina?`,
};

export const ES: Words = {
  language: 'es',
  formats,
  headEnd: ES_HEAD_END,
  unnamed: {
    station: (code) => `aparato ${code}`,
    'junction-box': (code) => `caja de conexiones ${code}`,
  },
  place,
  component,
  stretch: ({ trunk, from, to, spans }, nameNode) => {
    const ends = place({ kind: 'span', trunk, from, to }, nameNode);
    return `${ends}, ${formats.plural(spans.length, { one: '# tramo', other: '# tramos' })}`;
  },
  withChance: (words, chance) => `${words}: ${formats.chance(chance)}`,
  comesAndGoes: (words) => `va y viene: ${words}`,
  joint: ({ place: at, component: part, ohms, probability }, nameNode) => {
    const where =
      part === 'cable' ? `el cable ${place(at, nameNode)}` : `los ${component(part, at, nameNode)}`;
    const on = part === 'cable' || at.from === null ? '' : `, línea ${at.trunk}`;
    const [median, low, high] = [ohms.median, ohms.low, ohms.high].map((one) =>
      formats.figure(one, 2),
    );
    const size = `unos ${median} ohmios (de ${low} a ${high})`;
    return `una mala conexión en ${where}${on}, ${size}: ${formats.chance(probability)}`;
  },
  check: (action, nameNode) => {
    switch (action.kind) {
      case 'function':
        return TRY[action.function](nameNode(action.trunk, action.node));
      case 'volume-knob': {
        const room = nameNode(action.trunk, action.node);
        return `suba el volumen en ${room} y escuche otra vez ${ONE[action.function]}`;
      }
      case 'head-end':
        return isSiteSetting(action.setting)
          ? LOOK_AT[action.setting]
          : groupSetting(action.setting, LOOK_AT_GROUP);
      case 'supply-volts':
        return `mida la tensión de alimentación en ${nameNode(action.trunk, action.node)}`;
      case 'continuity': {
        const from = action.from === null ? ES_HEAD_END : nameNode(action.trunk, action.from);
        const to = nameNode(action.trunk, action.to);
        return `aísle la línea ${action.trunk} y mida la continuidad de cada hilo desde ${from} hasta ${to}`;
      }
      case 'open-junction': {
        const { component: part, ...span } = action;
        return `abra y mire los ${component(part, { ...span, kind: 'span' }, nameNode)}`;
      }
      case 'isolation': {
        const room = nameNode(action.trunk, action.node);
        return `desconecte todo lo que sigue después de ${room}: ¿vuelve allí ${ONE[action.function]}?`;
      }
    }
  },
  settingQuestion: {
    power: {
      text: '¿Está encendido el armario de la oficina, con su piloto iluminado?',
      advice: 'Enciéndalo y escuche otra vez antes de que vaya nadie.',
    },
    amplifier: {
      text: '¿Tiene el aparato de sonido del armario de la oficina su piloto iluminado y el volumen subido?',
      advice: 'Enciéndalo, suba el volumen y escuche otra vez antes de que vaya nadie.',
    },
    selector: {
      text: '¿Están elegidas las salas correctas en el armario de la oficina?',
      advice: 'Elija las salas y escuche otra vez antes de que vaya nadie.',
    },
    'bell-source': {
      text: '¿Figura hoy como día normal en el programa del reloj, y no como festivo?',
      advice: 'En un día festivo no toca ningún timbre; mire el programa antes de que vaya nadie.',
    },
    microphone: {
      text: '¿Está enchufado y encendido el micrófono de la oficina?',
      advice: 'Enchúfelo, enciéndalo y pruebe otra vez antes de que vaya nadie.',
    },
    'line-input': {
      text: '¿Está encendido el reproductor de música, y con volumen?',
      advice: 'Enciéndalo, suba el volumen y escuche otra vez antes de que vaya nadie.',
    },
  },
  setAside: (room, { function: name, isOut }) =>
    isOut
      ? `${room}: según el plano, el equipo está puenteado o retirado; no se pregunta nada de él`
      : `${room}: según el plano, el equipo no tiene esta función (${ONE[name]}); no se pregunta nada de ella`,
  groupQuestion: (setting) => ({
    text: groupSetting(setting, ASK_GROUP),
    advice: 'Conéctelo y escuche otra vez antes de que vaya nadie.',
  }),
  volumeQuestion: (room) => ({
    text: `¿Está subido el volumen en ${room}?`,
    advice: `Suba el volumen en ${room} y escuche otra vez antes de que vaya nadie.`,
  }),
  answer: ES_ANSWER,
  walk: ES_WALK,
  drawing: {
    title: (trunk) => `central, línea ${trunk}`,
    marks: {
      heard: 'se oye',
      weak: 'débil',
      silent: 'en silencio',
      'not checked': 'sin comprobar',
      contradicted: 'dicho de dos maneras',
    },
    station: 'aparato',
    junctionBox: 'caja de conexiones',
    lookHere: 'mire aquí primero',
    metres: (metres) => `${formats.figure(metres, 6)} m`,
  },
  said: ({ room, function: name, outcome, saidBy }) => {
    const what = {
      lamp: 'el piloto',
      announcement: 'los avisos',
      bell: 'el timbre',
      music: 'la música',
      'room-call': 'la llamada a la sala',
      talkback: 'la respuesta desde la sala',
    }[name];
    const how = { works: 'funciona', weak: 'débil', fails: 'no funciona' }[outcome];
    return `${room}: ${what}, ${how}, según ${saidBy}`;
  },
};
