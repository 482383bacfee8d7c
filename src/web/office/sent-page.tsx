import type { Office } from './use-office.js';
import { TicketCard } from './ticket-card.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { nextVisitInWords } from './when-in-words.js';
import type { PassSite, PassTicket } from '../parts/wire.js';

interface SentPageProps {
  office: Office;
  site: PassSite;
  tickets: PassTicket[];
  onMore: () => void;
}

/** Read back at once: the number, when somebody is due, and what is worth looking at. */
export function SentPage({ office, site, tickets, onMore }: SentPageProps) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const numbers = tickets.map(({ number }) => number).join(' and ');
  return (
    <section>
      <h2 tabIndex={-1} ref={heading}>
        Thank you. {tickets.length === 1 ? 'Your ticket is' : 'Your tickets are'} number {numbers}.
      </h2>
      <p>{nextVisitInWords(site.nextVisit)}</p>
      {tickets.map((ticket) => (
        <TicketCard key={ticket.id} office={office} site={site} summary={ticket} ticket={ticket} />
      ))}
      <button type="button" onClick={onMore}>
        Report more rooms
      </button>
    </section>
  );
}
