import type { ToldFunction } from './wire.js';

interface FunctionWords {
  /** As an answer to "what was tried?". */
  tried: string;
  fails: string;
  works: string;
  weak: string;
}

const SOUND = { fails: 'silent', works: 'heard', weak: 'faint' };

/** In the order in which an office thinks of them. */
export const FUNCTION_WORDS: Readonly<Record<ToldFunction, FunctionWords>> = {
  announcement: {
    tried: 'Announcement',
    ...SOUND,
  },
  bell: {
    tried: 'Bell',
    ...SOUND,
  },
  music: {
    tried: 'Music',
    ...SOUND,
  },
  lamp: {
    tried: 'Lamp on the unit',
    fails: 'dark',
    works: 'lit',
    weak: 'dim',
  },
  'room-call': {
    tried: 'Call to one room',
    ...SOUND,
  },
  talkback: {
    tried: 'Room speaks to the office',
    ...SOUND,
  },
};

export const FUNCTION_NAMES = Object.keys(FUNCTION_WORDS) as ToldFunction[];
