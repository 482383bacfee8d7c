import { useId, useState } from 'preact/hooks';
import { uuidv7 } from 'uuidv7';
import { FailureLine } from '../parts/failure-line.js';
import { keepIn } from '../parts/kept.js';
import { forgetId, repeatId } from '../parts/repeat-id.js';
import { useService } from '../parts/service-context.js';
import { TextField } from '../parts/text-field.js';
import { shortDay } from '../parts/time-words.js';
import { useSending } from '../parts/use-sending.js';
import type { ReadVisit } from '../parts/wire.js';
import type { TicketViewProps } from './ticket/ticket-view.js';
import { TICKET_WORDS } from './words/words.js';

/** Who goes when, and sending somebody: the visit and the ticket move together. */
export function TicketPeople(props: TicketViewProps) {
  const { visits, technicians, ticket } = props;
  const service = useService();
  const canPlan = service.session.person.role !== 'technician';
  const nameOf = (id: string | null) =>
    technicians.find((one) => one.id === id)?.name ?? TICKET_WORDS.sendNobody;
  return (
    <section>
      <h2>{TICKET_WORDS.people}</h2>
      {visits.length === 0 && <p>{TICKET_WORDS.nobody}</p>}
      <ul class="plain">
        {visits.map((visit) => (
          <li key={visit.id}>
            {shortDay(visit.on)}: {nameOf(visit.technicianId)}, {visit.state.replace('-', ' ')}
            {visit.workDone !== null && <span class="soft"> {visit.workDone}</span>}
          </li>
        ))}
      </ul>
      {canPlan && ticket.state !== 'closed' && ticket.state !== 'merged' && <SendForm {...props} />}
    </section>
  );
}

const kept = keepIn(() => sessionStorage);

interface SentOut {
  technicianId: string;
  on: string;
  reason: string;
}

/** Moves the ticket and plans the visit. */
function useSendingOut(
  { ticket, site, location, onChanged }: TicketViewProps,
  { technicianId, on, reason }: SentOut,
) {
  const service = useService();
  const { isSending, failure, send } = useSending();
  const submit = (event: Event) => {
    event.preventDefault();
    send(async () => {
      const visit = {
        siteId: site.id,
        kind: 'call-out',
        on,
        technicianId: technicianId === '' ? null : technicianId,
        purpose: location?.places[0]?.words ?? TICKET_WORDS.ticket(ticket.number),
        ticketIds: [ticket.id],
      };
      const path = `/visits for ${ticket.id}`;
      const body = { id: repeatId(kept, path, visit, uuidv7), ...visit };
      if (ticket.moves.includes('to-visit')) {
        const saidBy = { name: service.session.person.name, kind: 'office' };
        const move = { saidBy, to: 'to-visit', reason: reason.trim() || null };
        await service.send('POST', `/tickets/${ticket.id}/moves`, { body: move });
      }
      await service.send<ReadVisit>('POST', '/visits', { body });
      forgetId(kept, path);
      onChanged();
    });
  };
  return { isSending, failure, submit };
}

function SendForm(props: TicketViewProps) {
  const { technicians, site } = props;
  const id = useId();
  const [technicianId, setTechnician] = useState('');
  const [on, setOn] = useState(() => todayAt(site.zone));
  const [reason, setReason] = useState('');
  const { isSending, failure, submit } = useSendingOut(props, { technicianId, on, reason });
  return (
    <details>
      <summary>{TICKET_WORDS.send}</summary>
      <form onSubmit={submit} noValidate>
        <p class="field">
          <label for={`${id}-who`}>{TICKET_WORDS.sendBy}</label>
          <select
            id={`${id}-who`}
            value={technicianId}
            onChange={(event) => setTechnician(event.currentTarget.value)}
          >
            <option value="">{TICKET_WORDS.sendNobody}</option>
            {technicians.map((one) => (
              <option key={one.id} value={one.id}>
                {one.name}
              </option>
            ))}
          </select>
        </p>
        <p class="field">
          <label for={`${id}-on`}>{TICKET_WORDS.sendOn}</label>
          <input
            id={`${id}-on`}
            type="date"
            value={on}
            onInput={(event) => setOn(event.currentTarget.value)}
          />
        </p>
        <TextField
          label={TICKET_WORDS.sendWhy}
          autocomplete="off"
          maxLength={2000}
          value={reason}
          onValue={setReason}
          error={failure?.sentenceFor('/reason')}
        />
        <FailureLine failure={failure} fields={['/reason']} />
        <button type="submit" class="main" aria-disabled={isSending}>
          {TICKET_WORDS.sendButton}
        </button>
      </form>
    </details>
  );
}

function todayAt(timeZone: string): string {
  return new Intl.DateTimeFormat('sv-SE', { timeZone }).format(new Date());
}
