import type { CheckAction, FunctionName, HeadEndSetting } from '../locator/index.js';
import { componentInWords } from './component-in-words.js';
import type { NameNode } from '../sites/drawing.js';

const LOOK_AT: Readonly<Record<HeadEndSetting, string>> = {
  power: 'look whether the head-end is switched on, with its lamp lit',
  selector: 'look whether the right rooms are selected at the head-end',
  'bell-source':
    'look whether the bell timetable at the head-end is on and today is an ordinary day in it',
  microphone: 'look whether the microphone at the head-end is plugged in and switched on',
  'line-input': 'look whether the music source at the head-end is on and turned up',
};

function tryIn(name: FunctionName, room: string): string {
  switch (name) {
    case 'lamp':
      return `look whether the lamp in ${room} is lit`;
    case 'announcement':
      return `make an announcement and have somebody listen in ${room}`;
    case 'bell':
      return `ring the bell and have somebody listen in ${room}`;
    case 'music':
      return `play music and have somebody listen in ${room}`;
    case 'room-call':
      return `call ${room} alone and ask whether it was heard there`;
    case 'talkback':
      return `have somebody in ${room} talk back, and listen`;
  }
}

const NAMES: Readonly<Record<FunctionName, string>> = {
  lamp: 'the lamp',
  announcement: 'an announcement',
  bell: 'the bell',
  music: 'music',
  'room-call': 'a call to the room',
  talkback: 'talking back',
};

/** What to do, in plain words: "look whether the lamp in Room 9 is lit". */
export function checkInWords(action: CheckAction, nameNode: NameNode): string {
  switch (action.kind) {
    case 'function':
      return tryIn(action.function, nameNode(action.trunk, action.node));
    case 'volume-knob': {
      const room = nameNode(action.trunk, action.node);
      return `turn the volume knob in ${room} up and listen for ${NAMES[action.function]} again`;
    }
    case 'head-end':
      return LOOK_AT[action.setting];
    case 'supply-volts':
      return `measure the supply voltage in ${nameNode(action.trunk, action.node)}`;
    case 'continuity': {
      const from = action.from === null ? 'the head-end' : nameNode(action.trunk, action.from);
      const to = nameNode(action.trunk, action.to);
      return `isolate trunk ${action.trunk} and measure every core for continuity from ${from} to ${to}`;
    }
    case 'open-junction': {
      const { component, ...span } = action;
      const terminals = componentInWords(component, { ...span, kind: 'span' }, nameNode);
      return `open and look at the ${terminals}`;
    }
    case 'isolation': {
      const room = nameNode(action.trunk, action.node);
      return `disconnect everything past ${room}: does ${NAMES[action.function]} come back there?`;
    }
  }
}
