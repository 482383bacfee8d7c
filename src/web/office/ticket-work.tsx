import { useEffect, useRef, useState } from 'preact/hooks';
import { CheckItem } from './check-item.js';
import { FailureLine } from '../parts/failure-line.js';
import { NameField } from './name-field.js';
import { PAGE_WORDS } from '../parts/language.js';
import { OFFICE_WORDS } from './own-words.js';
import { LookOnlyNotice } from './notices.js';
import type { Office } from './use-office.js';
import { QuestionItem } from './question-item.js';
import { reportedInWords } from './reported-in-words.js';
import { useFocusOnWrong } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import type { PassAnswer, PassReport, PassRoom, PassTicket } from '../parts/wire.js';

const SAID = { page: PAGE_WORDS, office: OFFICE_WORDS };

interface TicketWorkProps {
  office: Office;
  rooms: PassRoom[];
  ticket: PassTicket;
  onTicket: (ticket: PassTicket) => void;
}

/** What is reported, and what the office can look at before anybody goes. */
export function TicketWork({ office, rooms, ticket, onTicket }: TicketWorkProps) {
  const { isSending, failure, send } = useSending();
  const [attempts, setAttempts] = useState(0);
  const [thanks, setThanks] = useState('');
  const checks = ticket.officeChecks;
  // What a check asks is not asked twice.
  const questions = ticket.askFirst.filter(
    ({ question }) => !checks.some((check) => check.question === question),
  );
  const name = office.name.trim();
  const around = useFocusOnWrong<HTMLDivElement>(`${attempts} ${String(failure)}`);
  const [asksName] = useState(name === '');

  const say = (path: string, content: PassReport | PassAnswer) => {
    setAttempts(attempts + 1);
    setThanks('');
    if (name === '') return;
    send(async () => {
      onTicket(await office.send<PassTicket>(`/tickets/${ticket.id}${path}`, content));
      setThanks(OFFICE_WORDS.check.noted);
    });
  };
  const observe = (observation: PassReport['observations'][number]) =>
    say('/reports', { name, how: 'gone-through', observations: [observation] });
  const answer = (question: string, given: PassAnswer['answer']) =>
    say('/answers', { name, question, answer: given });
  const nameError =
    attempts > 0 && name === '' ? OFFICE_WORDS.report.missing.name : failure?.sentenceFor('/name');

  return (
    <div ref={around}>
      {reportedInWords(ticket.stillToProve, ticket.saidToWork, rooms, SAID).map((line) => (
        <p key={line}>{line}</p>
      ))}
      {ticket.contradictions.map(({ words }) => (
        <p key={words}>{words}</p>
      ))}
      <Said words={isSending ? PAGE_WORDS.sending : thanks} />
      <FailureLine failure={failure} fields={['/name']} />
      {checks.length + questions.length > 0 && (
        <>
          <h4>{OFFICE_WORDS.check.heading}</h4>
          <p>{OFFICE_WORDS.check.why}</p>
          <LookOnlyNotice />
          {(asksName || nameError) && <NameField office={office} error={nameError} />}
          <ul class="checks">
            {questions.map((question) => (
              <QuestionItem key={question.question} question={question} onAnswer={answer} />
            ))}
            {checks.map((check) => (
              <CheckItem
                key={JSON.stringify(check)}
                check={check}
                onAnswer={answer}
                onObservation={observe}
              />
            ))}
          </ul>
        </>
      )}
    </div>
  );
}

/** Read out when it changes; takes the focus when what had it is gone, such as a check that was answered. */
function Said({ words }: { words: string }) {
  const line = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    if (words !== '' && document.activeElement === document.body) line.current?.focus();
  }, [words]);
  return (
    <p role="status" tabIndex={-1} ref={line}>
      {words}
    </p>
  );
}
