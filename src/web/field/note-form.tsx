import { useLocation } from 'preact-iso';
import { LongText } from '../parts/text-field.js';
import { useEntering } from './entering.js';
import { EntrySection } from './entry-section.js';
import { FIELD_WORDS } from './field-words.js';
import type { AnyKeptTicket, FieldTicketProps } from './ticket-page.js';
import { useField } from './use-field.js';
import { useFieldDraft } from './use-field-draft.js';

/** Anything that fits nowhere else. */
export function NoteForm({ kept, subject, home }: FieldTicketProps<AnyKeptTicket>) {
  const { person } = useField();
  const entering = useEntering(subject);
  const { enter, instead, wrong } = entering;
  const { route } = useLocation();
  const ticketId = kept.value.ticket.id;
  const { draft, give, settle } = useFieldDraft(`note of ${ticketId} ${instead?.order ?? ''}`, {
    note: (instead?.body['note'] as string | undefined) ?? '',
  });
  const { note } = draft;
  const save = () => {
    if (note.trim() === '') return;
    const saidBy = { name: person.name, kind: 'technician' };
    // A step that ended stays one, whatever is said of it.
    const step = instead?.body['step'];
    const body = { saidBy, note: note.trim(), ...(step !== undefined && { step }) };
    enter([{ path: `/tickets/${ticketId}/notes`, body, words: note.trim() }], () => {
      settle();
      route(home);
    });
  };
  return (
    <EntrySection title={FIELD_WORDS.menu.note} entering={entering} fields={['/note']}>
      <LongText
        label={FIELD_WORDS.noteText}
        value={note}
        onValue={(text) => give({ note: text })}
        error={wrong('/note')}
      />
      <button type="button" class="main" aria-disabled={note.trim() === ''} onClick={save}>
        {FIELD_WORDS.enter}
      </button>
    </EntrySection>
  );
}
