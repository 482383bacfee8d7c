import { useLocation } from 'preact-iso';
import { useState } from 'preact/hooks';
import { LongText } from '../parts/text-field.js';
import { useEntering } from './entering.js';
import { EntrySection } from './entry-section.js';
import { FIELD_WORDS } from './field-words.js';
import { lastMended, mendingTakenBack } from './mended-here.js';
import type { FieldTicketProps } from './ticket-page.js';
import { useField, useUntold } from './use-field.js';

/** The last mending was entered by mistake: with a reason it is as if nobody had entered it. */
export function TakeBackForm({ kept, subject, home }: FieldTicketProps) {
  const { person } = useField();
  const entering = useEntering(subject);
  const { enter, instead, wrong } = entering;
  const { route } = useLocation();
  const last = lastMended(kept.value.kit, useUntold(kept));
  const [typed, setTyped] = useState<string>();
  const reason = typed ?? (instead?.body['reason'] as string | undefined) ?? '';
  const isReady = reason.trim() !== '';
  const mendingId = (instead && mendingTakenBack(instead)) ?? last?.id;
  const save = () => {
    if (!isReady || mendingId === undefined) return;
    const saidBy = { name: person.name, kind: 'technician' };
    const path = `/tickets/${kept.value.ticket.id}/mendings/${mendingId}/withdraw`;
    const words = instead?.words ?? FIELD_WORDS.takenBackWords(last?.words ?? '');
    enter([{ path, body: { saidBy, reason: reason.trim() }, words }], () => route(home));
  };
  return (
    <EntrySection title={FIELD_WORDS.menu.takeBack} entering={entering} fields={['/reason']}>
      {mendingId === undefined ? (
        <p>{FIELD_WORDS.noMending}</p>
      ) : (
        <>
          <p class="strong">{instead?.words ?? last?.words}</p>
          <p class="hint">{FIELD_WORDS.takeBackHint}</p>
          <LongText
            label={FIELD_WORDS.discardWhy}
            value={reason}
            onValue={setTyped}
            error={wrong('/reason')}
          />
          <button type="button" class="main" aria-disabled={!isReady} onClick={save}>
            {FIELD_WORDS.enter}
          </button>
        </>
      )}
    </EntrySection>
  );
}
