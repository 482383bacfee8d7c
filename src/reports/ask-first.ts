import type { FunctionName } from '../plan/functions.js';
import { type Heard, pointKey } from './observation.js';

export const ANSWERS = ['yes', 'no', 'unknown'] as const;

export type Answer = (typeof ANSWERS)[number];

/** Something the office can look at that may spare the visit. */
export interface Question {
  /** Name to answer it by. */
  question: string;
  text: string;
  answer: Answer | null;
  /** Said when the answer may well be the whole fault. */
  advice: string | null;
}

/** What a volume knob turned down silences (fault model, section 2). */
const VOLUME_FUNCTIONS: readonly FunctionName[] = ['announcement', 'bell', 'music', 'room-call'];

/** With more silent rooms than this, a knob in each of them is not what happened. */
const ROOMS_TO_ASK_ABOUT_VOLUME = 3;

/**
 * The questions that need no visit, for what was reported: is the head-end on, is it a holiday in
 * its timetable, is the room's volume up.
 */
export function askFirst(
  heard: readonly Heard[],
  answers: ReadonlyMap<string, Answer>,
  nameRoom: (trunk: string, node: string) => string,
): Question[] {
  const missing = heard.filter(({ outcome }) => outcome !== 'works');
  if (missing.length === 0) return [];
  const questions = [
    {
      question: 'head-end-on',
      text: 'Is the head-end switched on, with its lamp lit?',
      sparing: 'Have it switched on and listen again before anybody goes.',
    },
  ];
  if (missing.some((one) => one.function === 'bell')) {
    questions.push({
      question: 'ordinary-day',
      text: 'Is today an ordinary day in the head-end’s timetable, not a holiday?',
      sparing: 'No bell is due on a holiday; check the timetable before anybody goes.',
    });
  }
  for (const { trunk, node } of roomsToAskAboutVolume(missing)) {
    const room = nameRoom(trunk, node);
    questions.push({
      question: `volume-up:${trunk}/${node}`,
      text: `Is the volume knob in ${room} turned up?`,
      sparing: `Have the volume in ${room} turned up and listen again before anybody goes.`,
    });
  }
  return questions.map(({ question, text, sparing }) => {
    const answer = answers.get(question) ?? null;
    return { question, text, answer, advice: answer === 'no' ? sparing : null };
  });
}

function roomsToAskAboutVolume(missing: readonly Heard[]): Heard[] {
  const quiet = missing.filter((one) => VOLUME_FUNCTIONS.includes(one.function));
  const rooms = new Map(quiet.map((one) => [pointKey({ ...one, function: '' }), one]));
  return rooms.size > ROOMS_TO_ASK_ABOUT_VOLUME ? [] : [...rooms.values()];
}
