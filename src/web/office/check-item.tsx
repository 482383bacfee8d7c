import { AnswerButtons } from './answer-buttons.js';
import { OFFICE_WORDS } from './own-words.js';
import { PAGE_WORDS } from '../parts/language.js';
import type { PassAnswer, PassReport, PassTicket } from '../parts/wire.js';

/** A check as the service suggests it: about a room, or about a question that is answered by yes and no, or both. */
type SuggestedCheck = PassTicket['officeChecks'][number];

const OUTCOMES = ['works', 'weak', 'fails'] as const;

interface CheckItemProps {
  check: SuggestedCheck;
  onAnswer: (question: string, answer: PassAnswer['answer']) => void;
  onObservation: (observation: PassReport['observations'][number]) => void;
}

/** Something to look at or to listen to, and what may come of it. */
export function CheckItem({ check, onAnswer, onObservation }: CheckItemProps) {
  const minutes = Math.max(1, Math.round(check.minutes));
  const words = OFFICE_WORDS.check.suggestion(check.words, minutes);
  const { trunk, node, function: tried, question } = check;
  const isInRoom = trunk !== null && node !== null && tried !== null;
  return (
    <li>
      <p>{words}</p>
      {question && (
        <>
          {isInRoom && <p>{OFFICE_WORDS.check.wasItSo}</p>}
          <AnswerButtons
            label={words}
            answer={null}
            onAnswer={(answer) => onAnswer(question, answer)}
          />
        </>
      )}
      {isInRoom && (
        <>
          {question && <p>{OFFICE_WORDS.check.andNow}</p>}
          <div class="answers" role="group" aria-label={words}>
            {OUTCOMES.map((outcome) => (
              <button
                key={outcome}
                type="button"
                onClick={() => onObservation({ trunk, node, function: tried, outcome })}
              >
                {PAGE_WORDS.functions[tried][outcome]}
              </button>
            ))}
          </div>
        </>
      )}
    </li>
  );
}
