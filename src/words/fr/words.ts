import type { FunctionName } from '../../plan/functions.js';
import { groupSetting, type GroupSentences, isSiteSetting } from '../head-end-mode.js';
import type { SiteSetting } from '../../locator/index.js';
import type { Words } from '../words.js';
import { FR_ANSWER } from './answer.js';
import { FR_FORMATS as formats } from './formats.js';
import { frComponent as component, FR_HEAD_END, frPlace as place } from './places.js';
import { FR_ONE as ONE } from './left-out.js';
import { FR_WALK } from './walk.js';

const TRY: Readonly<Record<FunctionName, (room: string) => string>> = {
  lamp: (room) => `regardez si le voyant est allumé dans ${room}`,
  announcement: (room) => `faites une annonce et demandez à quelqu’un d’écouter dans ${room}`,
  bell: (room) => `faites sonner et demandez à quelqu’un d’écouter dans ${room}`,
  music: (room) => `mettez de la musique et demandez à quelqu’un d’écouter dans ${room}`,
  'room-call': (room) => `appelez seulement ${room} et demandez si on l’a entendu là-bas`,
  talkback: (room) => `demandez à quelqu’un de répondre depuis ${room}, et écoutez`,
};

const LOOK_AT: Readonly<Record<SiteSetting, string>> = {
  power: 'regardez si l’armoire du bureau est en marche, voyant allumé',
  selector: 'regardez si les bonnes salles sont choisies sur l’armoire du bureau',
  'bell-source':
    'regardez le programme de l’horloge : si les sonneries sont activées et si aujourd’hui y est un jour ordinaire',
  microphone: 'regardez si le micro du bureau est branché et allumé',
  'line-input': 'essayez la musique : regardez si le lecteur est allumé, volume monté',
  amplifier:
    'regardez si, dans l’armoire du bureau, l’appareil de son a son voyant allumé et le volume monté',
};

const LOOK_AT_GROUP: GroupSentences = {
  'group-off': (group) => `regardez si « ${group} » est en marche sur l’armoire du bureau`,
  'group-bell-off': (group) =>
    `regardez si la sonnerie est en marche pour « ${group} » sur l’armoire du bureau`,
  'group-announcement-off': (group) =>
    `regardez si les annonces sont en marche pour « ${group} » sur l’armoire du bureau`,
};

const ASK_GROUP: GroupSentences = {
  'group-off': (group) => `« ${group} » est-il en marche sur l’armoire du bureau ?`,
  'group-bell-off': (group) =>
    `La sonnerie est-elle en marche pour « ${group} » sur l’armoire du bureau ?`,
  'group-announcement-off': (group) =>
    `Les annonces sont-elles en marche pour « ${group} » sur l’armoire du bureau ?`,
};

export const FR: Words = {
  language: 'fr',
  formats,
  headEnd: FR_HEAD_END,
  unnamed: {
    station: (code) => `appareil ${code}`,
    'junction-box': (code) => `boîte de jonction ${code}`,
  },
  place,
  component,
  stretch: ({ trunk, from, to, spans }, nameNode) => {
    const ends = place({ kind: 'span', trunk, from, to }, nameNode);
    return `${ends}, ${formats.plural(spans.length, { one: '# tronçon', other: '# tronçons' })}`;
  },
  withChance: (words, chance) => `${words} : ${formats.chance(chance)}`,
  comesAndGoes: (words) => `va et vient : ${words}`,
  joint: ({ place: at, component: part, ohms, probability }, nameNode) => {
    const where =
      part === 'cable' ? `le câble ${place(at, nameNode)}` : `les ${component(part, at, nameNode)}`;
    const on = part === 'cable' || at.from === null ? '' : `, ligne ${at.trunk}`;
    const [median, low, high] = [ohms.median, ohms.low, ohms.high].map((one) =>
      formats.figure(one, 2),
    );
    const size = `environ ${median} ohms (de ${low} à ${high})`;
    return `un mauvais contact dans ${where}${on}, ${size} : ${formats.chance(probability)}`;
  },
  check: (action, nameNode) => {
    switch (action.kind) {
      case 'function':
        return TRY[action.function](nameNode(action.trunk, action.node));
      case 'volume-knob': {
        const room = nameNode(action.trunk, action.node);
        return `montez le volume dans ${room} et écoutez à nouveau ${ONE[action.function]}`;
      }
      case 'head-end':
        return isSiteSetting(action.setting)
          ? LOOK_AT[action.setting]
          : groupSetting(action.setting, LOOK_AT_GROUP);
      case 'supply-volts':
        return `mesurez la tension d’alimentation dans ${nameNode(action.trunk, action.node)}`;
      case 'continuity': {
        const from = action.from === null ? FR_HEAD_END : nameNode(action.trunk, action.from);
        const to = nameNode(action.trunk, action.to);
        return `isolez la ligne ${action.trunk} et mesurez la continuité de chaque fil depuis ${from} jusqu’à ${to}`;
      }
      case 'open-junction': {
        const { component: part, ...span } = action;
        return `ouvrez et regardez les ${component(part, { ...span, kind: 'span' }, nameNode)}`;
      }
      case 'isolation': {
        const room = nameNode(action.trunk, action.node);
        return `débranchez tout ce qui suit après ${room} : est-ce que ${ONE[action.function]} y revient ?`;
      }
    }
  },
  settingQuestion: {
    power: {
      text: 'L’armoire du bureau est-elle en marche, voyant allumé ?',
      advice: 'Mettez-la en marche et écoutez à nouveau avant que quelqu’un se déplace.',
    },
    amplifier: {
      text: 'L’appareil de son de l’armoire du bureau a-t-il son voyant allumé et le volume monté ?',
      advice: 'Allumez-le, montez le volume et écoutez à nouveau avant que quelqu’un se déplace.',
    },
    selector: {
      text: 'Les bonnes salles sont-elles choisies sur l’armoire du bureau ?',
      advice: 'Choisissez les salles et écoutez à nouveau avant que quelqu’un se déplace.',
    },
    'bell-source': {
      text: 'Aujourd’hui est-il un jour ordinaire dans le programme de l’horloge, et non un jour férié ?',
      advice:
        'Un jour férié, rien ne sonne ; regardez le programme avant que quelqu’un se déplace.',
    },
    microphone: {
      text: 'Le micro du bureau est-il branché et allumé ?',
      advice: 'Branchez-le, allumez-le et essayez à nouveau avant que quelqu’un se déplace.',
    },
    'line-input': {
      text: 'Le lecteur de musique est-il allumé, volume monté ?',
      advice: 'Allumez-le, montez le volume et écoutez à nouveau avant que quelqu’un se déplace.',
    },
  },
  setAside: (room, { function: name, isOut }) =>
    isOut
      ? `${room} : d’après le plan, l’appareil est ponté ou retiré ; rien n’est demandé à son sujet`
      : `${room} : d’après le plan, l’appareil n’a pas cette fonction (${ONE[name]}) ; rien n’est demandé à son sujet`,
  groupQuestion: (setting) => ({
    text: groupSetting(setting, ASK_GROUP),
    advice: 'Remettez en marche et écoutez à nouveau avant que quelqu’un se déplace.',
  }),
  volumeQuestion: (room) => ({
    text: `Le volume est-il monté dans ${room} ?`,
    advice: `Montez le volume dans ${room} et écoutez à nouveau avant que quelqu’un se déplace.`,
  }),
  answer: FR_ANSWER,
  walk: FR_WALK,
  drawing: {
    title: (trunk) => `centrale, ligne ${trunk}`,
    marks: {
      heard: 'entendu',
      weak: 'faible',
      silent: 'muet',
      'not checked': 'non vérifié',
      contradicted: 'dit de deux façons',
    },
    station: 'appareil',
    junctionBox: 'boîte de jonction',
    lookHere: 'regarder ici d’abord',
    metres: (metres) => `${formats.figure(metres, 6)} m`,
  },
  said: ({ room, function: name, outcome, saidBy }) => {
    const what = {
      lamp: 'le voyant',
      announcement: 'les annonces',
      bell: 'la sonnerie',
      music: 'la musique',
      'room-call': 'l’appel à la salle',
      talkback: 'la réponse depuis la salle',
    }[name];
    const how = { works: 'marche', weak: 'faible', fails: 'ne marche pas' }[outcome];
    return `${room} : ${what}, ${how}, dit ${saidBy}`;
  },
};
