import { useId, useState } from 'preact/hooks';
import { Failure } from '../../parts/failure.js';
import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import { LongText } from '../../parts/text-field.js';
import { useSending } from '../../parts/use-sending.js';
import type { DaysOfText } from '../../parts/wire.js';
import { CLOSED_DAYS_WORDS } from '../words/words.js';

const MOST_CHARACTERS = 200_000;

interface DaysFromTextProps {
  text: string;
  onText: (text: string) => void;
  onRead: (read: DaysOfText) => void;
}

/** Reads a text, and keeps what came of it to be shown. */
function useReading({ onText, onRead }: DaysFromTextProps) {
  const service = useService();
  const [lacking, setLacking] = useState<Failure>();
  const [leftOut, setLeftOut] = useState<number>();
  const { isSending, failure, send } = useSending();
  const see = (icalendar: string) => {
    setLeftOut(undefined);
    const errors = [{ field: '/icalendar', reason: CLOSED_DAYS_WORDS.noText }];
    setLacking(icalendar.trim() === '' ? new Failure(422, '', errors) : undefined);
    if (icalendar.trim() === '') return;
    send(async () => {
      const path = '/closed-calendars/reading';
      const read = await service.send<DaysOfText>('POST', path, { body: { icalendar } });
      setLeftOut(read.leftOut);
      onRead(read);
    });
  };
  const type = (typed: string) => {
    setLeftOut(undefined);
    onText(typed);
  };
  return { isSending, failure: lacking ?? failure, leftOut, see, type };
}

/** An iCalendar text, pasted or from a file, is read by the service; what is wrong is told by its line. */
export function DaysFromText(props: DaysFromTextProps) {
  const { text } = props;
  const id = useId();
  const words = CLOSED_DAYS_WORDS;
  const { isSending, failure, leftOut, see, type } = useReading(props);
  const ofLines = failure?.errors.filter(({ line }) => line !== undefined) ?? [];
  const ofWhole = ofLines.length === 0 ? failure?.sentenceFor('/icalendar') : undefined;
  return (
    <details open={text !== ''}>
      <summary>{words.fromText}</summary>
      <p class="hint">{words.fromTextHint}</p>
      <div class="field">
        <label for={id}>{words.file}</label>
        <input
          id={id}
          type="file"
          accept=".ics,text/calendar"
          onChange={(event) => {
            const file = event.currentTarget.files?.[0];
            void file?.text().then((read) => {
              type(read);
              see(read);
            });
          }}
        />
      </div>
      <LongText
        label={words.text}
        maxLength={MOST_CHARACTERS}
        value={text}
        onValue={type}
        error={ofWhole}
      />
      {ofLines.length > 0 ? (
        <WrongLines errors={ofLines} />
      ) : (
        <FailureLine failure={failure} fields={['/icalendar']} />
      )}
      <button type="button" aria-disabled={isSending} onClick={() => see(text)}>
        {isSending ? words.reading : words.see}
      </button>
      <p role="status">
        {leftOut !== undefined && `${words.read} ${leftOut > 0 ? words.leftOut(leftOut) : ''}`}
      </p>
    </details>
  );
}

function WrongLines({ errors }: { errors: Failure['errors'] }) {
  const words = CLOSED_DAYS_WORDS;
  return (
    <div role="alert">
      <p class="error">{words.wrong(errors.length)}</p>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.line}</th>
            <th scope="col">{words.reason}</th>
          </tr>
        </thead>
        <tbody>
          {errors.map(({ line, reason }, index) => (
            <tr key={index}>
              <td class="number">{line}</td>
              <td>{reason}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
