import { useLocation } from 'preact-iso';
import { useId, useState } from 'preact/hooks';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { useEntering } from './entering.js';
import { FIELD_WORDS } from './field-words.js';
import type { FieldTicketProps } from './ticket-page.js';
import { useField } from './use-field.js';

/** Anything that fits nowhere else. */
export function NoteForm({ kept, subject, home }: FieldTicketProps) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { person } = useField();
  const { enter, failure, instead } = useEntering(subject);
  const { route } = useLocation();
  const [typed, setTyped] = useState<string>();
  const note = typed ?? (instead?.body['note'] as string | undefined) ?? '';
  const ticketId = kept.value.ticket.id;
  const save = () => {
    if (note.trim() === '') return;
    const saidBy = { name: person.name, kind: 'technician' };
    // A step that ended stays one, whatever is said of it.
    const step = instead?.body['step'];
    const body = { saidBy, note: note.trim(), ...(step !== undefined && { step }) };
    enter([{ path: `/tickets/${ticketId}/notes`, body, words: note.trim() }], () => route(home));
  };
  return (
    <section>
      <h1 tabIndex={-1} ref={heading}>
        {FIELD_WORDS.menu.note}
      </h1>
      <LongText label={FIELD_WORDS.noteText} value={note} onValue={setTyped} />
      {failure !== undefined && <p class="error">{failure}</p>}
      <button type="button" class="main" aria-disabled={note.trim() === ''} onClick={save}>
        {FIELD_WORDS.enter}
      </button>
    </section>
  );
}

interface LongTextProps {
  label: string;
  value: string;
  onValue: (value: string) => void;
}

export function LongText({ label, value, onValue }: LongTextProps) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <textarea
        id={id}
        rows={4}
        maxLength={2000}
        value={value}
        onInput={(event) => onValue(event.currentTarget.value)}
      />
    </div>
  );
}
