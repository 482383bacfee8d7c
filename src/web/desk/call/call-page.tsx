import { useLocation } from 'preact-iso';
import { useEffect, useState } from 'preact/hooks';
import { Loaded } from '../../parts/states.js';
import { useService } from '../../parts/service-context.js';
import { TextField } from '../../parts/text-field.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadClient, ReadDrawnRecord, Reported, ReadSite } from '../../parts/wire.js';
import { CallForm } from './call-form.js';
import { findSites } from '../find-sites.js';
import { CALL_WORDS } from '../words/words.js';

/** Somebody rings: find the site while they speak, touch the rooms, send. */
export function CallPage() {
  const { query } = useLocation();
  const service = useService();
  const [sent, setSent] = useState<Reported>();
  const siteId = query.site;
  useEffect(() => {
    document.title = CALL_WORDS.title;
  }, []);
  useEffect(() => setSent(undefined), [siteId]);
  const read = useRead('sites and clients', async () => {
    const [sites, clients] = await Promise.all([
      service.list<ReadSite>('/sites'),
      service.list<ReadClient>('/clients'),
    ]);
    return { sites: sites.items, clients: clients.items, isWhole: sites.isWhole };
  });
  if (sent !== undefined) return <CallSent sent={sent} />;
  return (
    <Loaded read={read}>
      {(known) => {
        const site = known.sites.find(({ id }) => id === siteId);
        return site === undefined ? (
          <FindSite {...known} />
        ) : (
          <CallAt key={site.id} site={site} onSent={setSent} />
        );
      }}
    </Loaded>
  );
}

interface FindSiteProps {
  sites: ReadSite[];
  clients: ReadClient[];
  isWhole: boolean;
}

function FindSite({ sites, clients, isWhole }: FindSiteProps) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const [typed, setTyped] = useState('');
  const { route } = useLocation();
  const found = findSites(typed, sites, clients);
  // Enter takes the one that is left.
  const take = (event: Event) => {
    event.preventDefault();
    const [only, ...others] = found;
    if (only !== undefined && others.length === 0) route(`/desk/call?site=${only.site.id}`);
  };
  return (
    <section class="narrow">
      <h1 tabIndex={-1} ref={heading}>
        {CALL_WORDS.title}
      </h1>
      <form onSubmit={take} noValidate>
        <TextField
          label={CALL_WORDS.which}
          hint={CALL_WORDS.whichHint}
          autocomplete="off"
          value={typed}
          onValue={setTyped}
          isFirst
        />
      </form>
      {!isWhole && <p>{CALL_WORDS.notAllSites}</p>}
      <p role="status" class={found.length > 0 || typed === '' ? 'unseen' : undefined}>
        {typed === '' ? '' : CALL_WORDS.found(found.length)}
      </p>
      <ul class="found">
        {found.map(({ site, client }) => (
          <li key={site.id}>
            <a href={`/desk/call?site=${site.id}`}>
              <strong>{site.name}</strong>
              <span>{[site.address, client?.name, client?.phone].filter(Boolean).join(', ')}</span>
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}

function CallAt({ site, onSent }: { site: ReadSite; onSent: (sent: Reported) => void }) {
  const service = useService();
  const path = `/sites/${site.id}/as-built`;
  const read = useRead(path, () => service.read<ReadDrawnRecord>(path));
  return (
    <Loaded read={read}>
      {(record) => <CallForm site={site} record={record} onSent={onSent} />}
    </Loaded>
  );
}

/** What to read back to whoever rang. */
function CallSent({ sent }: { sent: Reported }) {
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  return (
    <section class="narrow">
      <h1 tabIndex={-1} ref={heading}>
        {CALL_WORDS.taken}
      </h1>
      {sent.tickets.map((ticket) => (
        <article class="card" key={ticket.id}>
          <h2>
            <a href={`/desk/tickets/${ticket.number}`}>{CALL_WORDS.ticket(ticket.number)}</a>
          </h2>
          <p>{ticket.joined ? CALL_WORDS.joined : CALL_WORDS.opened}</p>
          {ticket.contradictions.map(({ words }) => (
            <p key={words}>{words}</p>
          ))}
          {ticket.officeChecks.length > 0 && (
            <>
              <h3>{CALL_WORDS.askNow}</h3>
              <ul>
                {ticket.officeChecks.map(({ words }) => (
                  <li key={words}>{words}</li>
                ))}
              </ul>
            </>
          )}
        </article>
      ))}
      <p>
        <a href="/desk/call">{CALL_WORDS.another}</a>
      </p>
    </section>
  );
}
