import { useLocation } from 'preact-iso';
import { useState } from 'preact/hooks';
import { SERVICE_CLOCK } from '../parts/service-clock.js';
import { LongText, TextField } from '../parts/text-field.js';
import { useEntering } from './entering.js';
import { EntrySection } from './entry-section.js';
import { FIELD_WORDS } from './field-words.js';
import type { ToEnter } from './outbox-keeper.js';
import type { AnyKeptTicket, FieldTicketProps } from './ticket-page.js';
import { useField } from './use-field.js';

/** What a technician takes on: when, and what for. */
interface TakenOn {
  on: string;
  purpose: string;
}

/** Today at the site, whatever the phone says. */
function todayAt(kept: AnyKeptTicket): string {
  const { zone } = ('kit' in kept ? kept.kit : kept.inWords).site;
  return new Intl.DateTimeFormat('sv-SE', { timeZone: zone }).format(SERVICE_CLOCK.now());
}

/** A visit of one's own to the ticket: it is meant so, whatever the hour. */
export function callOut(
  kept: AnyKeptTicket,
  technicianId: string,
  taken: TakenOn = { on: todayAt(kept), purpose: FIELD_WORDS.taken },
): ToEnter {
  const { ticket } = kept;
  // With no signal until tomorrow, today has gone by when it arrives.
  const past = taken.on === todayAt(kept) ? ['in-the-past'] : [];
  const meant = { confirmed: ['double-booked', 'outside-hours', ...past] };
  const what = { kind: 'call-out', ...taken, ticketIds: [ticket.id] };
  const body = { siteId: ticket.siteId, technicianId, ...what, ...meant };
  return { path: '/visits', body, words: FIELD_WORDS.taken };
}

/** Taking a ticket on, on a day that is chosen. */
export function TakeForm({ kept, subject, home }: FieldTicketProps<AnyKeptTicket>) {
  const { person } = useField();
  const entering = useEntering(subject);
  const { enter, instead, wrong } = entering;
  const { route } = useLocation();
  const before = (instead?.body ?? {}) as Partial<TakenOn>;
  const [on, setOn] = useState(before.on ?? todayAt(kept.value));
  const [purpose, setPurpose] = useState(before.purpose ?? FIELD_WORDS.taken);
  const isReady = on !== '' && purpose.trim() !== '';
  const take = () => {
    if (!isReady) return;
    enter([callOut(kept.value, person.id, { on, purpose: purpose.trim() })], () => route(home));
  };
  return (
    <EntrySection title={FIELD_WORDS.take} entering={entering} fields={['/on', '/purpose']}>
      <TextField
        label={FIELD_WORDS.takenDay}
        type="date"
        value={on}
        onValue={setOn}
        autocomplete="off"
        error={wrong('/on')}
      />
      <LongText
        label={FIELD_WORDS.takenFor}
        value={purpose}
        onValue={setPurpose}
        error={wrong('/purpose')}
      />
      <button type="button" class="main" aria-disabled={!isReady} onClick={take}>
        {FIELD_WORDS.enter}
      </button>
    </EntrySection>
  );
}
