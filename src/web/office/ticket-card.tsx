import { useState } from 'preact/hooks';
import { FailureLine } from '../parts/failure-line.js';
import type { Office } from './use-office.js';
import { TicketWork } from './ticket-work.js';
import { useSending } from '../parts/use-sending.js';
import { PAGE_WORDS } from '../parts/language.js';
import { OFFICE_WORDS } from './own-words.js';
import type { PassSite, PassTicket, PassTicketSummary } from '../parts/wire.js';

/** States in which nobody is at work yet. */
const WAITS: readonly PassTicketSummary['state'][] = ['reported', 'to-visit', 'bridged'];

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
  const nextVisit = site.tickets.find((one) => one.id === id)?.nextVisit ?? null;
  const open = () => send(async () => setTicket(await office.read<PassTicket>(`/tickets/${id}`)));
  const words = OFFICE_WORDS.ticket;
  const whatNow = () => {
    if (nextVisit === null || !WAITS.includes(state)) return words.states[state];
    return nextVisit.isUnderWay ? OFFICE_WORDS.atWork : OFFICE_WORDS.nextVisit(nextVisit);
  };
  return (
    <article class="card" aria-label={words.heading(number)}>
      <h3>{words.heading(number)}</h3>
      <p>
        {words.since(PAGE_WORDS.instant(openedAt, site.zone))} {whatNow()}
      </p>
      {ticket === undefined ? (
        <button type="button" aria-disabled={isSending} onClick={open}>
          {words.open}
          <span class="unseen"> {words.ofTicket(number)}</span>
        </button>
      ) : (
        <TicketWork office={office} rooms={site.rooms} ticket={ticket} onTicket={setTicket} />
      )}
      <FailureLine failure={failure} />
    </article>
  );
}
