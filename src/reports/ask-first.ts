import { type FunctionName, pointKey } from '../plan/functions.js';
import type { NameNode, Words } from '../words/index.js';
import { questionOfSetting, questionOfVolume, wordsOfQuestion } from './office-questions.js';
import type { Heard } from './observation.js';

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
 * its timetable, is the room's volume up; and whatever else was answered.
 */
export function askFirst(
  heard: readonly Heard[],
  answers: ReadonlyMap<string, Answer>,
  nameRoom: NameNode,
  words: Words,
): Question[] {
  const missing = heard.filter(({ outcome }) => outcome !== 'works');
  if (missing.length === 0) return [];
  const asked = new Set([questionOfSetting('power')]);
  if (missing.some((one) => one.function === 'bell')) asked.add(questionOfSetting('bell-source'));
  for (const { trunk, node } of roomsToAskAboutVolume(missing))
    asked.add(questionOfVolume(trunk, node));
  // What a check asked stays, so that its answer is seen and may be changed.
  for (const question of answers.keys()) asked.add(question);
  return [...asked].flatMap((question) => {
    const inWords = wordsOfQuestion(question, nameRoom, words);
    if (inWords === null) return [];
    const answer = answers.get(question) ?? null;
    const advice = answer === 'no' ? inWords.advice : null;
    return { question, text: inWords.text, answer, advice };
  });
}

function roomsToAskAboutVolume(missing: readonly Heard[]): Heard[] {
  const quiet = missing.filter((one) => VOLUME_FUNCTIONS.includes(one.function));
  const rooms = new Map(quiet.map((one) => [pointKey({ ...one, function: '' }), one]));
  return rooms.size > ROOMS_TO_ASK_ABOUT_VOLUME ? [] : [...rooms.values()];
}
