import type { Office } from './use-office.js';
import { VisitLine } from './notices.js';
import { TicketCard } from './ticket-card.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { OFFICE_WORDS } from './own-words.js';
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
  return (
    <section>
      <h2 tabIndex={-1} ref={heading}>
        {OFFICE_WORDS.report.thanks(tickets.map(({ number }) => number))}
      </h2>
      <VisitLine next={site.nextVisit} />
      {tickets.map((ticket) => (
        <TicketCard key={ticket.id} office={office} site={site} summary={ticket} ticket={ticket} />
      ))}
      <button type="button" onClick={onMore}>
        {OFFICE_WORDS.report.more}
      </button>
    </section>
  );
}
