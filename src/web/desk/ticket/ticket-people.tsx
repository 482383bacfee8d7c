import { JobSheetLink } from '../../parts/job-sheet-link.js';
import { useService } from '../../parts/service-context.js';
import { shortDay } from '../../parts/time-words.js';
import type { ReadVisit } from '../../parts/wire.js';
import { CloseForm } from './close-form.js';
import { SendForm } from './send-form.js';
import type { TicketViewProps } from './ticket-view.js';
import { TICKET_WORDS } from '../words/words.js';

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
            {whenOf(visit)}: {nameOf(visit.technicianId)}, {TICKET_WORDS.visitStates[visit.state]}
            {visit.workDone !== null && <span class="soft"> {visit.workDone}</span>}{' '}
            <JobSheetLink visitId={visit.id} words={TICKET_WORDS.jobSheet} />
          </li>
        ))}
      </ul>
      {canPlan && ticket.state !== 'closed' && ticket.state !== 'merged' && <SendForm {...props} />}
      {canPlan && ticket.moves.includes('closed') && <CloseForm {...props} />}
    </section>
  );
}

/** "Wed 4 Mar, 09:00–11:00". */
function whenOf({ on, fromTime, untilTime }: ReadVisit): string {
  return fromTime === null ? shortDay(on) : `${shortDay(on)}, ${fromTime}–${untilTime}`;
}
