import type { PassAnswer } from '../parts/wire.js';
import { OFFICE_WORDS } from './own-words.js';

type Answer = PassAnswer['answer'];

const ANSWERS: readonly Answer[] = ['yes', 'no', 'unknown'];

interface AnswerButtonsProps {
  label: string;
  /** What was answered already. */
  answer: Answer | null;
  onAnswer: (answer: Answer) => void;
}

export function AnswerButtons({ label, answer: given, onAnswer }: AnswerButtonsProps) {
  return (
    <div class="answers" role="group" aria-label={label}>
      {ANSWERS.map((answer) => (
        <button
          key={answer}
          type="button"
          aria-pressed={given === answer}
          onClick={() => onAnswer(answer)}
        >
          {OFFICE_WORDS.check.answers[answer]}
        </button>
      ))}
    </div>
  );
}
