import type { FunctionName } from './wire.js';

interface FunctionWords {
  /** As an answer to "what was tried?". */
  tried: string;
  fails: string;
  works: string;
  weak: string;
  /** What to do in a room to find out. */
  check: (room: string) => string;
}

const SOUND = { fails: 'silent', works: 'heard', weak: 'faint' };

/** In the order in which an office thinks of them. */
export const FUNCTION_WORDS: Readonly<Record<FunctionName, FunctionWords>> = {
  announcement: {
    tried: 'Announcement',
    ...SOUND,
    check: (room) => `Make an announcement. Is it heard in ${room}?`,
  },
  bell: {
    tried: 'Bell',
    ...SOUND,
    check: (room) => `Listen at the next bell. Is it heard in ${room}?`,
  },
  music: {
    tried: 'Music',
    ...SOUND,
    check: (room) => `Play music. Is it heard in ${room}?`,
  },
  lamp: {
    tried: 'Lamp on the unit',
    fails: 'dark',
    works: 'lit',
    weak: 'dim',
    check: (room) => `Look at the unit in ${room}. Is its lamp lit?`,
  },
  'room-call': {
    tried: 'Call to one room',
    ...SOUND,
    check: (room) => `Call ${room} alone. Is it heard there?`,
  },
  talkback: {
    tried: 'Room speaks to the office',
    ...SOUND,
    check: (room) => `Have somebody speak from ${room}. Is it heard in the office?`,
  },
};

export const FUNCTION_NAMES = Object.keys(FUNCTION_WORDS) as FunctionName[];
