import { useEffect } from 'preact/hooks';
import { Failure } from '../parts/failure.js';
import type { Service } from '../parts/service.js';
import { useService } from '../parts/service-context.js';
import { Loaded } from '../parts/states.js';
import { useRead } from '../parts/use-read.js';
import type {
  DrawnRecord,
  Kit,
  ListedTicket,
  LogEntry,
  Person,
  Site,
  Ticket,
  TicketLocation,
  ToldThing,
  Visit,
} from '../parts/wire.js';
import { TicketView } from './ticket-view.js';
import { useLive } from './use-live.js';

/** Everything that the page of a ticket shows. */
export interface TicketRead {
  ticket: Ticket;
  site: Site;
  record: Pick<DrawnRecord, 'trunks'>;
  /** Undefined where it cannot be worked out from what was told. */
  location: TicketLocation | undefined;
  kit: Kit | undefined;
  told: ToldThing[];
  log: LogEntry[];
  visits: Visit[];
  technicians: Person[];
  /** Other open tickets of the site. */
  others: ListedTicket[];
}

export function TicketPage({ number }: { number?: string }) {
  const service = useService();
  const read = useRead(`ticket ${number}`, () => readTicket(service, number ?? ''));
  useLive(read.again);
  useEffect(() => {
    document.title = `Ticket ${number}`;
  }, [number]);
  return <Loaded read={read}>{(all) => <TicketView {...all} onChanged={read.again} />}</Loaded>;
}

async function readTicket(service: Service, number: string): Promise<TicketRead> {
  const isNumber = /^[1-9]\d{0,8}$/.test(number);
  const list = isNumber
    ? await service.read<{ items: ListedTicket[] }>(`/tickets?number=${number}`)
    : null;
  const [listed] = list?.items ?? [];
  if (listed === undefined) throw new Failure(404, `There is no ticket ${number}.`);
  const { id, siteId, asBuiltVersion } = listed;
  const at = `/tickets/${id}`;
  const isPlanner = service.session.person.role !== 'technician';
  const [ticket, site, record, location, kit, told, log, visits, people, open] = await Promise.all([
    service.read<Ticket>(at),
    service.read<Site>(`/sites/${siteId}`),
    service.read<DrawnRecord>(`/sites/${siteId}/as-built?version=${asBuiltVersion}`),
    orRefused(service.read<TicketLocation>(`${at}/location`)),
    orRefused(service.read<Kit>(`${at}/kit`)),
    service.read<{ items: ToldThing[] }>(`${at}/observations`),
    service.list<LogEntry>(`${at}/log`),
    service.list<Visit>(`/visits?ticket=${id}`),
    isPlanner ? service.list<Person>('/people?work=technician') : { items: [] },
    service.list<ListedTicket>(`/tickets?site=${siteId}&open=true`),
  ]);
  return {
    ticket,
    site,
    record,
    location,
    kit,
    told: told.items,
    log: log.items,
    visits: visits.items,
    technicians: people.items,
    others: open.items.filter((one) => one.id !== id),
  };
}

/** Evidence that contradicts itself altogether, or is more than the locator takes, is no failure of the page. */
async function orRefused<Answer>(work: Promise<Answer>): Promise<Answer | undefined> {
  try {
    return await work;
  } catch (error) {
    if (error instanceof Failure && error.status === 422) return undefined;
    throw error;
  }
}
