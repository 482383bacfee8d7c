import type { FunctionName } from '../../plan/functions.js';
import type { StationMode } from '../../plan/modes.js';
import type { AnswerWords, OneSaid, ToldCause } from '../answer-words.js';
import { namedGroup } from '../head-end-mode.js';
import { EN_FORMATS as formats } from './formats.js';
import { enPlace as place } from './places.js';
import { EN_LEFT_OUT } from './left-out.js';

const FUNCTIONS: Readonly<Record<FunctionName, string>> = {
  lamp: 'the lamp',
  announcement: 'announcements',
  bell: 'the bell',
  music: 'music',
  'room-call': 'calls to single rooms',
  talkback: 'talking back',
};

const HEAD_END: Readonly<Record<string, string>> = {
  power: 'the power of the head-end',
  amplifier: 'the amplifier in the head-end',
  receiver: 'the talkback receiver in the head-end',
  selector: 'the room selector in the head-end',
  'bell-source': 'the clock’s programme or the bell source in the head-end',
  microphone: 'the microphone at the head-end',
  'line-input': 'the music input of the head-end',
};

const GROUP: Readonly<Record<string, (group: string) => string>> = {
  'group-off': (group) => `the group “${group}” switched off at the head-end`,
  'group-bell-off': (group) => `the bell of the group “${group}” switched off at the head-end`,
  'group-announcement-off': (group) =>
    `announcements of the group “${group}” switched off at the head-end`,
};

const UNIT: Readonly<Record<StationMode, string>> = {
  dead: 'the unit there is dead',
  speaker: 'the loudspeaker there',
  'volume-down': 'the volume turned down there',
  microphone: 'the microphone there',
  address: 'the address set there',
  lamp: 'the lamp there',
  'bell-setting': 'its setting leaves it out of the bell',
  'announcement-setting': 'its setting leaves it out of announcements',
  'music-setting': 'its setting leaves it out of music',
  'short-supply': 'a short in the unit there',
};

function cause(told: ToldCause, nameNode: Parameters<AnswerWords['cause']>[1]): string {
  switch (told.kind) {
    case 'span':
    case 'port':
      return place(told.place, nameNode);
    case 'comes-and-goes':
      return `something that comes and goes: ${place(told.place, nameNode)}`;
    case 'head-end': {
      const { mode, group } = namedGroup(told.mode);
      return GROUP[mode]?.(group) ?? HEAD_END[mode] ?? `the head-end: ${mode}`;
    }
    case 'short':
      return `a short somewhere on trunk ${told.trunk}`;
    case 'weak-feed':
      return `a bad joint somewhere on trunk ${told.trunk}`;
    case 'own-unit':
      if (told.node === null) return 'each room’s own unit';
      return told.mode === null ? 'the room’s own unit or its settings' : UNIT[told.mode];
    case 'nothing':
      return 'nothing wrong';
    case 'rest':
      return 'something else';
  }
}

const HEARD = { works: 'works', weak: 'is weak', fails: 'does not work' };

const saying = ({ saidBy, outcome }: OneSaid) => `${saidBy} says it ${HEARD[outcome]}`;

export const EN_ANSWER: AnswerWords = {
  functions: FUNCTIONS,
  range: (first, last) => {
    const [, kind, number] = /^(Room) (\S+)$/.exec(first) ?? [];
    return kind !== undefined && last.startsWith(`${kind} `)
      ? `Rooms ${number} to ${last.slice(kind.length + 1)}`
      : `${first} to ${last}`;
  },
  missedIn: (functions, rooms) => `${formats.and(functions)} in ${formats.and(rooms)}`,
  cause,
  trouble: (missed, causes) =>
    `${missed.join('; ')}: ${causes.map(({ words, percent }) => `${words}, ${formats.percent(percent)}`).join('; ')}`,
  alsoBroken: (where, chance) =>
    `may also be broken, though nothing that was reported comes of it: ${where}, ${formats.chance(chance)}`,
  contradiction: (room, name, said) =>
    `${room}, ${FUNCTIONS[name]}: ${formats.and(said.map(saying))}. Both cannot be so: ask again there.`,
  saidBoth: (room, name) =>
    `${room}, ${FUNCTIONS[name]}: one said it works, another said it does not. Both cannot be so: try again there.`,
  againstTheRest: (room, name, said) =>
    `${room}, ${FUNCTIONS[name]}: ${saying(said)}. That hardly goes with all the rest: ask again there.`,
  drawing: {
    branch: (rooms, at, chance) =>
      `the drawing may be wrong: ${formats.and(rooms)} may hang from a branch at ${at}, ${formats.chance(chance)}`,
    end: (rooms, trunk, chance) =>
      `the drawing may be wrong: ${formats.and(rooms)} may lie behind the end of trunk ${trunk}, ${formats.chance(chance)}`,
    swapped: (rooms, chance) =>
      `the drawing may be wrong: ${formats.and(rooms)} may have each other’s names, ${formats.chance(chance)}`,
    countCables: (at, asDrawn, alternative) =>
      `count the cables at ${at}: ${asDrawn} by the drawing, ${alternative} if it is wrong so`,
    compareNames: (rooms) => `compare the names of ${formats.and(rooms)} with what is on the doors`,
  },
  leftOut: EN_LEFT_OUT,
  halve: (room, trunk) =>
    `disconnect everything past ${room}: if trunk ${trunk} comes back, the short lies behind it, else before; then halve again`,
  first: {
    leftOut: (why) =>
      `Nothing is to be done by what is known. Of what was reported this is not gone by: ${why}.`,
    byOffice: (check, minutes) =>
      `First: ${check}. Nobody has to travel for it, it takes about ${formats.plural(minutes, { one: 'a minute', other: '# minutes' })}, and it tells most for that.`,
    atDrawing: (look) =>
      `First: ${look}. What was told goes badly with the drawing, and this settles it.`,
    drawnWrong: (rooms) =>
      `First: have the record corrected at ${formats.and(rooms)}. Somebody looked, and it is not as drawn.`,
    goTo: (where, chance) =>
      `First: go and look ${where.startsWith('between ') ? where : `at ${where}`}. With ${formats.chance(chance)} it accounts for what was reported.`,
    onSite: (check) => `First, on site: ${check}. No place leads clearly, and this tells most.`,
    nothing: 'Nothing is reported that does not work.',
  },
};
