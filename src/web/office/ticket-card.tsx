import { useState } from 'preact/hooks';
import { FailureLine } from '../parts/failure-line.js';
import type { Office } from './use-office.js';
import { TicketWork } from './ticket-work.js';
import { useSending } from '../parts/use-sending.js';
import { instantInWords, stateInWords } from './when-in-words.js';
import type { PassSite, PassTicket, PassTicketSummary } from '../parts/wire.js';

interface TicketCardProps {
  office: Office;
  site: PassSite;
  summary: PassTicketSummary;
  /** Left out: read when it is asked for. */
  ticket?: PassTicket;
}

/** A ticket, and on asking what the office can do about it. */
export function TicketCard({ office, site, summary, ticket: given }: TicketCardProps) {
  const [ticket, setTicket] = useState(given);
  const { isSending, failure, send } = useSending();
  const { id, number, openedAt, state } = ticket ?? summary;
  const open = () => send(async () => setTicket(await office.read<PassTicket>(`/tickets/${id}`)));
  return (
    <article class="card" aria-label={`Ticket ${number}`}>
      <h3>Ticket {number}</h3>
      <p>
        Since {instantInWords(openedAt, site.zone)}. {stateInWords(state)}
      </p>
      {ticket === undefined ? (
        <button type="button" aria-disabled={isSending} onClick={open}>
          What you can check<span class="unseen"> for ticket {number}</span>
        </button>
      ) : (
        <TicketWork office={office} rooms={site.rooms} ticket={ticket} onTicket={setTicket} />
      )}
      <FailureLine failure={failure} />
    </article>
  );
}
