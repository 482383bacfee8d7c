import { useLocation } from 'preact-iso';
import { useEffect, useState } from 'preact/hooks';
import { ChooseField } from '../../parts/choose-field.js';
import type { Service } from '../../parts/service.js';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { shortDay } from '../../parts/time-words.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type {
  ReadContractVisits,
  ReadListedTicket,
  ReadPerson,
  ReadSite,
  ReadSiteCover,
  ReadVisit,
} from '../../parts/wire.js';
import { BOOK_VISIT_WORDS } from '../words/words.js';
import { VisitForm } from './visit-form.js';

/** A visit that a contract promises the site and nobody planned yet. */
export type OwedAtSite = ReadContractVisits['items'][number];

/** What a visit to a site can be for. */
export interface ForVisit {
  site: ReadSite;
  owed: readonly OwedAtSite[];
  tickets: readonly ReadListedTicket[];
  technicians: readonly ReadPerson[];
}

const OWED: readonly OwedAtSite['standing'][] = ['late', 'due', 'to-come'];

/** Books one visit by hand: one that was promised, or a call-out. */
export function BookVisitPage() {
  const service = useService();
  const { query } = useLocation();
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const read = useRead('sites', () => service.list<ReadSite>('/sites'));
  useEffect(() => {
    document.title = BOOK_VISIT_WORDS.title;
  }, []);
  return (
    <article class="narrow">
      <h1 tabIndex={-1} ref={heading}>
        {BOOK_VISIT_WORDS.title}
      </h1>
      <Loaded read={read}>
        {({ items }) => <BookAt sites={items} siteId={query.site ?? ''} />}
      </Loaded>
    </article>
  );
}

function BookAt({ sites, siteId }: { sites: readonly ReadSite[]; siteId: string }) {
  const { query, route } = useLocation();
  const [booked, setBooked] = useState<ReadVisit>();
  const site = sites.find(({ id }) => id === siteId);
  const { on = '', kind = '' } = query;
  if (booked !== undefined) {
    return (
      <Booked visit={booked} siteName={site?.name ?? ''} onMore={() => setBooked(undefined)} />
    );
  }
  const goTo = (id: string) =>
    route(
      `/desk/visits/new?${new URLSearchParams({ site: id, ...(on && { on }), ...(kind && { kind }) })}`,
    );
  return (
    <>
      <ChooseField
        label={BOOK_VISIT_WORDS.site}
        value={site?.id ?? ''}
        choices={[
          ...(site === undefined ? [{ value: '', words: BOOK_VISIT_WORDS.chooseSite }] : []),
          ...sites.map(({ id, name }) => ({ value: id, words: name })),
        ]}
        onValue={goTo}
      />
      {site !== undefined && <AtSite key={site.id} site={site} onBooked={setBooked} />}
    </>
  );
}

function AtSite({ site, onBooked }: { site: ReadSite; onBooked: (visit: ReadVisit) => void }) {
  const service = useService();
  const read = useRead(`visits to book at ${site.id}`, () => readFor(service, site));
  return <Loaded read={read}>{(all) => <VisitForm {...all} onBooked={onBooked} />}</Loaded>;
}

async function readFor(service: Service, site: ReadSite): Promise<ForVisit> {
  const [cover, tickets, people] = await Promise.all([
    service.read<ReadSiteCover>(`/sites/${site.id}/cover`),
    service.list<ReadListedTicket>(`/tickets?site=${site.id}&open=true`),
    service.list<ReadPerson>('/people'),
  ]);
  const { inForce } = cover;
  const promised =
    inForce === null
      ? undefined
      : await service.read<ReadContractVisits>(`/contracts/${inForce}/visits?site=${site.id}`);
  const owed = promised?.items.filter(({ standing }) => OWED.includes(standing)) ?? [];
  const technicians = people.items.filter(({ work }) => work === 'technician');
  return { site, owed, tickets: tickets.items, technicians };
}

interface BookedProps {
  visit: ReadVisit;
  siteName: string;
  onMore: () => void;
}

function Booked({ visit, siteName, onMore }: BookedProps) {
  const line = useFocusOnAppearing<HTMLParagraphElement>();
  return (
    <>
      <p role="status" tabIndex={-1} ref={line}>
        {BOOK_VISIT_WORDS.booked(siteName, shortDay(visit.on))}
      </p>
      <p class="buttons">
        <a class="button" href={`/desk/days/${visit.on}`}>
          {BOOK_VISIT_WORDS.toDay}
        </a>
        <a href={`/desk/sites/${visit.siteId}`}>{BOOK_VISIT_WORDS.toSite}</a>
        <button type="button" onClick={onMore}>
          {BOOK_VISIT_WORDS.more}
        </button>
      </p>
    </>
  );
}
