import { useEffect } from 'preact/hooks';
import { PAGE_WORDS } from '../parts/language.js';
import { shortDay } from '../parts/time-words.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import type { DeskTicket, ReadVisit } from '../parts/wire.js';
import { FIELD_WORDS } from './field-words.js';
import { useField } from './use-field.js';

/** What is to be done today and tomorrow, and every open ticket of the firm. */
export function JobsPage() {
  const { work } = useField();
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  useEffect(() => {
    document.title = FIELD_WORDS.jobs;
  }, []);
  if (work === undefined) return <p role="status">{PAGE_WORDS.oneMoment}</p>;
  const { visits, tickets, sites } = work.value;
  const byDay = [...visits].sort((a, b) => whenOf(a).localeCompare(whenOf(b)));
  return (
    <>
      <h1 tabIndex={-1} ref={heading}>
        {FIELD_WORDS.jobs}
      </h1>
      {byDay.length === 0 && <p>{FIELD_WORDS.noJobs}</p>}
      <ul class="jobs">
        {byDay.map((visit) => (
          <VisitItem
            key={visit.id}
            visit={visit}
            tickets={tickets.filter(({ id }) => visit.ticketIds.includes(id))}
            site={sites.find(({ id }) => id === visit.siteId)}
          />
        ))}
      </ul>
      <section>
        <h2>{FIELD_WORDS.everyTicket}</h2>
        <p class="hint">{FIELD_WORDS.everyTicketHint}</p>
        {tickets.length === 0 && <p>{FIELD_WORDS.nothingOpen}</p>}
        <ul class="jobs">
          {tickets.map((ticket) => (
            <li key={ticket.id}>
              <TicketLink ticket={ticket} />
            </li>
          ))}
        </ul>
      </section>
    </>
  );
}

function whenOf({ on, fromTime }: ReadVisit): string {
  return `${on} ${fromTime ?? ''}`;
}

interface VisitItemProps {
  visit: ReadVisit;
  tickets: readonly DeskTicket[];
  site: { name: string; address: string | null } | undefined;
}

function VisitItem({ visit, tickets, site }: VisitItemProps) {
  const { on, fromTime, untilTime, purpose, state } = visit;
  const hours = fromTime === null ? FIELD_WORDS.someTime : `${fromTime}–${untilTime ?? ''}`;
  return (
    <li class="card">
      <h2>{site?.name ?? tickets[0]?.site.name ?? ''}</h2>
      <p>
        {shortDay(on)}, {hours}
      </p>
      {site?.address != null && <p class="soft">{site.address}</p>}
      <p>
        {FIELD_WORDS.visitStates[state]}: {purpose}
      </p>
      {tickets.map((ticket) => (
        <p key={ticket.id}>
          <TicketLink ticket={ticket} />
        </p>
      ))}
      <p>
        <a href={`/field/visits/${visit.id}`}>{FIELD_WORDS.openVisit}</a>
      </p>
    </li>
  );
}

function TicketLink({ ticket }: { ticket: DeskTicket }) {
  return (
    <a class="job" href={`/field/tickets/${ticket.number}`}>
      <strong>
        {ticket.number}, {ticket.site.name}
      </strong>
      <span>{ticket.likeliest?.words ?? FIELD_WORDS.notLocated}</span>
    </a>
  );
}
