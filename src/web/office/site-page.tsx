import { useState } from 'preact/hooks';
import type { Failure } from '../parts/failure.js';
import { EmergencyNotice, VisitLine } from './notices.js';
import { LanguageChoice } from '../parts/language-choice.js';
import { OFFICE_WORDS } from './own-words.js';
import { ReportForm } from './report-form.js';
import { SentPage } from './sent-page.js';
import { SignForm } from './sign-form.js';
import type { Sitting } from './sitting.js';
import { TicketCard } from './ticket-card.js';
import { useOffice } from './use-office.js';
import type { PassSite, PassTicket } from '../parts/wire.js';

interface SitePageProps {
  sitting: Sitting;
  site: PassSite;
  onSite: (site: PassSite) => void;
  /** The pass was ended, or the sitting is over. */
  onOver: (failure: Failure) => void;
}

/** The site as the office sees it: report, open tickets, work to sign for. */
export function SitePage({ sitting, site, onSite, onOver }: SitePageProps) {
  const [sent, setSent] = useState<PassTicket[]>();
  const office = useOffice(sitting, onSite, onOver);
  const others = site.tickets.filter(({ id }) => !sent?.some((one) => one.id === id));

  return (
    <>
      <header>
        <h1>{site.name}</h1>
        {sent === undefined && <VisitLine next={site.nextVisit} />}
        {site.firm.phone !== null && (
          <p>
            {OFFICE_WORDS.ring(site.firm.name)}{' '}
            <a href={`tel:${site.firm.phone.replaceAll(' ', '')}`}>{site.firm.phone}</a>
          </p>
        )}
        {others.length > 0 && (
          <Jump to="tickets" words={OFFICE_WORDS.ticket.openCount(others.length)} />
        )}
        {site.toSign.length > 0 && (
          <Jump to="signing" words={OFFICE_WORDS.sign.count(site.toSign.length)} />
        )}
      </header>
      {site.servesEmergencyCalls && <EmergencyNotice />}
      {sent === undefined ? (
        <ReportForm office={office} site={site} onSent={setSent} />
      ) : (
        <SentPage office={office} site={site} tickets={sent} onMore={() => setSent(undefined)} />
      )}
      {others.length > 0 && (
        <section>
          <h2 id="tickets" tabIndex={-1}>
            {OFFICE_WORDS.ticket.openHeading}
          </h2>
          {others.map((ticket) => (
            <TicketCard key={ticket.id} office={office} site={site} summary={ticket} />
          ))}
        </section>
      )}
      {site.toSign.length > 0 && (
        <section>
          <h2 id="signing" tabIndex={-1}>
            {OFFICE_WORDS.sign.heading}
          </h2>
          {site.toSign.map((visit) => (
            <SignForm key={visit.id} office={office} visit={visit} />
          ))}
        </section>
      )}
      <LanguageChoice />
    </>
  );
}

/** A link within the page would be one behind the #, where the secret was; this goes there all the same. */
function Jump({ to, words }: { to: string; words: string }) {
  return (
    <button type="button" class="jump" onClick={() => document.getElementById(to)?.focus()}>
      {words}
    </button>
  );
}
