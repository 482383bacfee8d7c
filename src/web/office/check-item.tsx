import { AnswerButtons } from './answer-buttons.js';
import { type SuggestedCheck, suggestionInWords, outcomesInWords } from './check-words.js';
import type { PassAnswer, PassReport } from '../parts/wire.js';

interface CheckItemProps {
  check: SuggestedCheck;
  onAnswer: (question: string, answer: PassAnswer['answer']) => void;
  onObservation: (observation: PassReport['observations'][number]) => void;
}

/** Something to look at or to listen to, and what may come of it. */
export function CheckItem({ check, onAnswer, onObservation }: CheckItemProps) {
  const words = suggestionInWords(check);
  const { trunk, node, function: tried, question } = check;
  const isInRoom = trunk !== null && node !== null && tried !== null;
  return (
    <li>
      <p>{words}</p>
      {question && (
        <>
          {isInRoom && <p>Was it so before you began?</p>}
          <AnswerButtons
            label={words}
            answer={null}
            onAnswer={(answer) => onAnswer(question, answer)}
          />
        </>
      )}
      {isInRoom && (
        <>
          {question && <p>And now?</p>}
          <div class="answers" role="group" aria-label={words}>
            {outcomesInWords(tried).map(({ outcome, words }) => (
              <button
                key={outcome}
                type="button"
                onClick={() => onObservation({ trunk, node, function: tried, outcome })}
              >
                {words}
              </button>
            ))}
          </div>
        </>
      )}
    </li>
  );
}
