import type { PassAnswer } from '../parts/wire.js';

type Answer = PassAnswer['answer'];

const ANSWERS: { answer: Answer; words: string }[] = [
  { answer: 'yes', words: 'yes' },
  { answer: 'no', words: 'no' },
  { answer: 'unknown', words: 'cannot say' },
];

interface AnswerButtonsProps {
  label: string;
  /** What was answered already. */
  answer: Answer | null;
  onAnswer: (answer: Answer) => void;
}

export function AnswerButtons({ label, answer: given, onAnswer }: AnswerButtonsProps) {
  return (
    <div class="answers" role="group" aria-label={label}>
      {ANSWERS.map(({ answer, words }) => (
        <button
          key={answer}
          type="button"
          aria-pressed={given === answer}
          onClick={() => onAnswer(answer)}
        >
          {words}
        </button>
      ))}
    </div>
  );
}
