import type { FunctionName } from '../../plan/functions.js';
import { enComponent as component, EN_HEAD_END, enPlace as place } from './places.js';
import { EN_ONE as ONE } from './left-out.js';
import { EN_WALK } from './walk.js';
import { EN_ANSWER } from './answer.js';
import { EN_FORMATS as formats } from './formats.js';
import { groupSetting, type GroupSentences, isSiteSetting } from '../head-end-mode.js';
import type { SiteSetting } from '../../locator/index.js';
import type { Words } from '../words.js';

const TRY: Readonly<Record<FunctionName, (room: string) => string>> = {
  lamp: (room) => `look whether the lamp in ${room} is lit`,
  announcement: (room) => `make an announcement and have somebody listen in ${room}`,
  bell: (room) => `ring the bell and have somebody listen in ${room}`,
  music: (room) => `play music and have somebody listen in ${room}`,
  'room-call': (room) => `call ${room} alone and ask whether it was heard there`,
  talkback: (room) => `have somebody in ${room} talk back, and listen`,
};

const LOOK_AT: Readonly<Record<SiteSetting, string>> = {
  power: 'look whether the cabinet in the office is switched on, with its lamp lit',
  selector: 'look whether the right rooms are selected at the cabinet in the office',
  'bell-source':
    'look at the clock’s programme: whether the bells are on, and today is an ordinary day in it',
  microphone: 'look whether the microphone in the office is plugged in and switched on',
  'line-input': 'try the music: look whether its player is on and turned up',
  amplifier:
    'look whether the sound unit in the office cabinet has its lamp lit and its volume turned up',
};

const LOOK_AT_GROUP: GroupSentences = {
  'group-off': (group) => `look whether “${group}” is switched on at the cabinet in the office`,
  'group-bell-off': (group) =>
    `look whether the bell is switched on for “${group}” at the cabinet in the office`,
  'group-announcement-off': (group) =>
    `look whether announcements are switched on for “${group}” at the cabinet in the office`,
};

const ASK_GROUP: GroupSentences = {
  'group-off': (group) => `Is “${group}” switched on at the cabinet in the office?`,
  'group-bell-off': (group) =>
    `Is the bell switched on for “${group}” at the cabinet in the office?`,
  'group-announcement-off': (group) =>
    `Are announcements switched on for “${group}” at the cabinet in the office?`,
};

export const EN: Words = {
  language: 'en',
  formats,
  headEnd: EN_HEAD_END,
  unnamed: {
    station: (code) => `station ${code}`,
    'junction-box': (code) => `junction box ${code}`,
  },
  place,
  component,
  stretch: ({ trunk, from, to, spans }, nameNode) => {
    const ends = place({ kind: 'span', trunk, from, to }, nameNode);
    return `${ends}, ${formats.plural(spans.length, { one: '# span', other: '# spans' })}`;
  },
  withChance: (words, chance) => `${words}, ${formats.chance(chance)}`,
  comesAndGoes: (words) => `comes and goes: ${words}`,
  joint: ({ place: at, component: part, ohms, probability }, nameNode) => {
    const words = component(part, at, nameNode);
    const where = part === 'cable' ? `the cable ${place(at, nameNode)}` : `the ${words}`;
    const on = part === 'cable' || at.from === null ? '' : ` on trunk ${at.trunk}`;
    const [median, low, high] = [ohms.median, ohms.low, ohms.high].map((one) =>
      formats.figure(one, 2),
    );
    const size = `about ${median} ohm (${low} to ${high})`;
    return `a bad joint in ${where}${on}, ${size}, ${formats.chance(probability)}`;
  },
  check: (action, nameNode) => {
    switch (action.kind) {
      case 'function':
        return TRY[action.function](nameNode(action.trunk, action.node));
      case 'volume-knob': {
        const room = nameNode(action.trunk, action.node);
        return `turn the volume knob in ${room} up and listen for ${ONE[action.function]} again`;
      }
      case 'head-end':
        return isSiteSetting(action.setting)
          ? LOOK_AT[action.setting]
          : groupSetting(action.setting, LOOK_AT_GROUP);
      case 'supply-volts':
        return `measure the supply voltage in ${nameNode(action.trunk, action.node)}`;
      case 'continuity': {
        const from = action.from === null ? EN_HEAD_END : nameNode(action.trunk, action.from);
        const to = nameNode(action.trunk, action.to);
        return `isolate trunk ${action.trunk} and measure every core for continuity from ${from} to ${to}`;
      }
      case 'open-junction': {
        const { component: part, ...span } = action;
        return `open and look at the ${component(part, { ...span, kind: 'span' }, nameNode)}`;
      }
      case 'isolation': {
        const room = nameNode(action.trunk, action.node);
        return `disconnect everything past ${room}: does ${ONE[action.function]} come back there?`;
      }
    }
  },
  settingQuestion: {
    power: {
      text: 'Is the cabinet in the office switched on, with its lamp lit?',
      advice: 'Have it switched on and listen again before anybody goes.',
    },
    amplifier: {
      text: 'Is the lamp of the sound unit in the office cabinet lit, and its volume turned up?',
      advice: 'Switch it on, turn it up and listen again before anybody goes.',
    },
    selector: {
      text: 'Are the right rooms selected at the cabinet in the office?',
      advice: 'Select the rooms and listen again before anybody goes.',
    },
    'bell-source': {
      text: 'Is today an ordinary day in the clock’s programme, not a holiday?',
      advice: 'No bell is due on a holiday; look at the programme before anybody goes.',
    },
    microphone: {
      text: 'Is the microphone in the office plugged in and switched on?',
      advice: 'Plug it in, switch it on and try again before anybody goes.',
    },
    'line-input': {
      text: 'Is the music player on and turned up?',
      advice: 'Switch it on, turn it up and listen again before anybody goes.',
    },
  },
  setAside: (room, { function: name, isOut }) =>
    isOut
      ? `${room} is bridged over or taken out, the record says: nothing is asked of it`
      : `the unit in ${room} was never fitted for ${ONE[name]}, the record says: nothing is asked of it`,
  groupQuestion: (setting) => ({
    text: groupSetting(setting, ASK_GROUP),
    advice: 'Switch it on and listen again before anybody goes.',
  }),
  volumeQuestion: (room) => ({
    text: `Is the volume knob in ${room} turned up?`,
    advice: `Have the volume in ${room} turned up and listen again before anybody goes.`,
  }),
  answer: EN_ANSWER,
  walk: EN_WALK,
  drawing: {
    title: (trunk) => `head-end, trunk ${trunk}`,
    marks: {
      heard: 'heard',
      weak: 'weak',
      silent: 'silent',
      'not checked': 'not checked',
      contradicted: 'contradicted',
    },
    station: 'station',
    junctionBox: 'junction box',
    lookHere: 'look here first',
    metres: (metres) => `${formats.figure(metres, 6)} m`,
  },
  said: ({ room, function: name, outcome, saidBy }) =>
    `${room}: ${name} ${outcome}, says ${saidBy}`,
};
