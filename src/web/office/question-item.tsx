import { AnswerButtons } from './answer-buttons.js';
import type { PassAnswer, AskedQuestion } from '../parts/wire.js';

interface QuestionItemProps {
  question: AskedQuestion;
  onAnswer: (question: string, answer: PassAnswer['answer']) => void;
}

/** A question that may spare the visit; what was answered stays to be seen and changed. */
export function QuestionItem({ question, onAnswer }: QuestionItemProps) {
  return (
    <li>
      <p>{question.text}</p>
      <AnswerButtons
        label={question.text}
        answer={question.answer}
        onAnswer={(answer) => onAnswer(question.question, answer)}
      />
      {question.advice !== null && <p class="advice">{question.advice}</p>}
    </li>
  );
}
