import { JobSheetLink } from '../../parts/job-sheet-link.js';
import { useService } from '../../parts/service-context.js';
import { CloseForm, ReopenForm } from './close-form.js';
import { SendForm } from './send-form.js';
import type { TicketViewProps } from './ticket-view.js';
import { ToldBeside } from './told-beside.js';
import { whenInWords } from '../visits/when-in-words.js';
import { BOOK_VISIT_WORDS, TICKET_WORDS } from '../words/words.js';

/** Nobody is there or was: it can still be made otherwise. */
const CHANGEABLE = { planned: true, 'called-off': true };

/** Who goes when, and sending somebody: the visit and the ticket move together. */
export function TicketPeople(props: TicketViewProps) {
  const { visits, technicians, ticket } = props;
  const service = useService();
  const canPlan = service.session.person.role !== 'technician';
  const nameOf = (id: string | null) =>
    technicians.find((one) => one.id === id)?.name ?? BOOK_VISIT_WORDS.nobody;
  return (
    <section>
      <h2>{TICKET_WORDS.people}</h2>
      {visits.length === 0 && <p>{TICKET_WORDS.nobody}</p>}
      <ul class="plain">
        {visits.map((visit) => (
          <li key={visit.id}>
            {whenInWords(visit)}: {nameOf(visit.technicianId)},{' '}
            {TICKET_WORDS.visitStates[visit.state]}
            {visit.workDone !== null && <span class="soft"> {visit.workDone}</span>}{' '}
            <JobSheetLink visitId={visit.id} words={TICKET_WORDS.jobSheet} />{' '}
            {canPlan && visit.state in CHANGEABLE && (
              <a href={`/desk/visits/${visit.id}`}>
                {BOOK_VISIT_WORDS.change.open}
                <span class="unseen">: {whenInWords(visit)}</span>
              </a>
            )}
          </li>
        ))}
      </ul>
      {canPlan && ticket.state !== 'closed' && ticket.state !== 'merged' && <SendForm {...props} />}
      {canPlan && (
        <ToldBeside>
          {(onEntered) =>
            ticket.moves.includes('closed') ? (
              <CloseForm {...props} onEntered={onEntered} />
            ) : (
              ticket.state === 'closed' && <ReopenForm {...props} onEntered={onEntered} />
            )
          }
        </ToldBeside>
      )}
    </section>
  );
}
