import { useEffect, useState } from 'preact/hooks';
import { JobSheetLink } from '../../parts/job-sheet-link.js';
import type { Service } from '../../parts/service.js';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { atSite } from '../../parts/time-words.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type {
  ReadListedTicket,
  ReadPerson,
  ReadSite,
  ReadVisit,
  ReadVisitLog,
} from '../../parts/wire.js';
import { asHeadline } from '../desk-words.js';
import { useLive } from '../use-live.js';
import { BOOK_VISIT_WORDS, TICKET_WORDS } from '../words/words.js';
import { CallOffForm } from './call-off-form.js';
import { ChangeVisitForm } from './change-visit-form.js';
import { whenInWords } from './when-in-words.js';

/** Everything that the page of a visit shows. */
export interface VisitRead {
  visit: ReadVisit;
  site: ReadSite;
  log: ReadVisitLog;
  tickets: readonly ReadListedTicket[];
  technicians: readonly ReadPerson[];
}

/** One visit: when, who, what for; the office moves it, sends somebody else, or calls it off. */
export function DeskVisitPage({ id = '' }: { id?: string }) {
  const service = useService();
  const read = useRead(`visit ${id}`, () => readVisit(service, id));
  useLive(read.again);
  return (
    <Loaded read={read}>{(all) => <VisitView key={id} {...all} onChanged={read.again} />}</Loaded>
  );
}

async function readVisit(service: Service, id: string): Promise<VisitRead> {
  const isOffice = service.session.person.role !== 'technician';
  const visit = await service.read<ReadVisit>(`/visits/${encodeURIComponent(id)}`);
  const [site, log, tickets, people] = await Promise.all([
    service.read<ReadSite>(`/sites/${visit.siteId}`),
    service.read<ReadVisitLog>(`/visits/${visit.id}/log`),
    service.list<ReadListedTicket>(`/tickets?site=${visit.siteId}`),
    isOffice ? service.list<ReadPerson>('/people?work=technician') : { items: [] },
  ]);
  const own = tickets.items.filter((one) => visit.ticketIds.includes(one.id));
  return { visit, site, log, tickets: own, technicians: people.items };
}

export interface ChangedVisitProps extends VisitRead {
  onChanged: () => void;
  /** Says what was done. */
  onDone: (words: string) => void;
}

function VisitView(props: VisitRead & { onChanged: () => void }) {
  const { visit, site, tickets, technicians } = props;
  const { id, name, role } = useService().session.person;
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const [done, setDone] = useState('');
  const words = BOOK_VISIT_WORDS.change;
  useEffect(() => {
    document.title = words.title(site.name);
  }, [site.name, words]);
  // A technician reads no list of people.
  const known = [...technicians, { id, name }].find((one) => one.id === visit.technicianId);
  const who = visit.technicianId === null ? BOOK_VISIT_WORDS.nobody : known?.name;
  const changed = { ...props, onDone: setDone };
  return (
    <article class="narrow">
      <h1 tabIndex={-1} ref={heading}>
        {words.title(site.name)}
      </h1>
      <p class="first-place">{[whenInWords(visit), who].filter(Boolean).join(': ')}</p>
      <p>
        {asHeadline(TICKET_WORDS.visitStates[visit.state])}. {visit.purpose}
      </p>
      <p class="line-up">
        {tickets.map(({ id, number }) => (
          <a key={id} href={`/desk/tickets/${number}`}>
            {TICKET_WORDS.ticket(number)}
          </a>
        ))}
        <a href={`/desk/sites/${site.id}`}>{BOOK_VISIT_WORDS.toSite}</a>
        <a href={`/desk/days/${visit.on}`}>{BOOK_VISIT_WORDS.toDay}</a>
        <JobSheetLink visitId={visit.id} words={TICKET_WORDS.jobSheet} />
      </p>
      {role !== 'technician' && (
        <div onSubmitCapture={() => setDone('')}>
          {visit.state === 'planned' && <ChangeVisitForm {...changed} />}
          <p role="status">{done}</p>
          <CallOffForm {...changed} />
        </div>
      )}
      <Changes {...props} />
    </article>
  );
}

/** What was moved when and why, oldest first. */
function Changes({ log, site }: VisitRead) {
  const words = BOOK_VISIT_WORDS.change;
  const moved = log.changes
    .filter(({ ticketId }) => ticketId === null)
    .map(({ id, changedAt, reason, wasOn, wasFromTime, wasUntilTime, ...now }) => {
      const was = { on: wasOn, fromTime: wasFromTime, untilTime: wasUntilTime };
      return { id, at: changedAt, said: words.moved(whenInWords(was), whenInWords(now), reason) };
    });
  const gone = log.items.map(({ id, movedAt, movedBy, toState, reason }) => {
    const said = words.became(movedBy, TICKET_WORDS.visitStates[toState], reason ?? '');
    return { id, at: movedAt, said };
  });
  const all = [...moved, ...gone].sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
  if (all.length === 0) return null;
  return (
    <section>
      <h2>{TICKET_WORDS.log}</h2>
      <ol class="log">
        {all.map(({ id, at, said }) => (
          <li key={id}>
            <time dateTime={at}>{atSite(at, site.zone)}</time>
            <span>{said}</span>
          </li>
        ))}
      </ol>
    </section>
  );
}
