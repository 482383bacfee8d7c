import { type FunctionName, pointKey } from '../plan/functions.js';
import type { NameNode, QuestionWords, Words } from '../words/index.js';
import { questionOfSetting, questionOfVolume } from './office-questions.js';
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
 * its timetable, is the room's volume up.
 */
export function askFirst(
  heard: readonly Heard[],
  answers: ReadonlyMap<string, Answer>,
  nameRoom: NameNode,
  words: Words,
): Question[] {
  const missing = heard.filter(({ outcome }) => outcome !== 'works');
  if (missing.length === 0) return [];
  const asked: { question: string; words: QuestionWords }[] = [
    { question: questionOfSetting('power'), words: words.settingQuestion.power },
  ];
  if (missing.some((one) => one.function === 'bell'))
    asked.push({
      question: questionOfSetting('bell-source'),
      words: words.settingQuestion['bell-source'],
    });
  for (const { trunk, node } of roomsToAskAboutVolume(missing))
    asked.push({
      question: questionOfVolume(trunk, node),
      words: words.volumeQuestion(nameRoom(trunk, node)),
    });
  return asked.map(({ question, words: { text, advice } }) => {
    const answer = answers.get(question) ?? null;
    return { question, text, answer, advice: answer === 'no' ? advice : null };
  });
}

function roomsToAskAboutVolume(missing: readonly Heard[]): Heard[] {
  const quiet = missing.filter((one) => VOLUME_FUNCTIONS.includes(one.function));
  const rooms = new Map(quiet.map((one) => [pointKey({ ...one, function: '' }), one]));
  return rooms.size > ROOMS_TO_ASK_ABOUT_VOLUME ? [] : [...rooms.values()];
}
