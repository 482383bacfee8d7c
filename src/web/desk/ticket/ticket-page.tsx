import { useEffect } from 'preact/hooks';
import { Failure } from '../../parts/failure.js';
import type { Service } from '../../parts/service.js';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { useRead } from '../../parts/use-read.js';
import type {
  ReadDrawnRecord,
  ReadKit,
  ReadListedTicket,
  ReadLook,
  ReadReading,
  ReadLogEntry,
  ReadPerson,
  ReadSite,
  ShownTicket,
  ReadTicketClock,
  ReadTicketLocation,
  ToldThing,
  ReadVisit,
} from '../../parts/wire.js';
import { TicketView } from './ticket-view.js';
import { useLive } from '../use-live.js';
import { TICKET_WORDS } from '../words/words.js';

/** Everything that the page of a ticket shows. */
export interface TicketRead {
  ticket: ShownTicket;
  site: ReadSite;
  record: Pick<ReadDrawnRecord, 'trunks'>;
  /** Undefined where it cannot be worked out from what was told. */
  location: ReadTicketLocation | undefined;
  kit: ReadKit | undefined;
  /** What was promised of it. */
  clock: ReadTicketClock;
  told: ToldThing[];
  readings: ReadReading[];
  looks: ReadLook[];
  log: ReadLogEntry[];
  visits: ReadVisit[];
  technicians: ReadPerson[];
  /** Other open tickets of the site. */
  others: ReadListedTicket[];
}

export function TicketPage({ number }: { number?: string }) {
  const service = useService();
  const read = useRead(`ticket ${number}`, () => readTicket(service, number ?? ''));
  useLive(read.again);
  useEffect(() => {
    document.title = TICKET_WORDS.ticket(number ?? '');
  }, [number]);
  return <Loaded read={read}>{(all) => <TicketView {...all} onChanged={read.again} />}</Loaded>;
}

async function readTicket(service: Service, number: string): Promise<TicketRead> {
  const isNumber = /^[1-9]\d{0,8}$/.test(number);
  const list = isNumber
    ? await service.read<{ items: ReadListedTicket[] }>(`/tickets?number=${number}`)
    : null;
  const [listed] = list?.items ?? [];
  if (listed === undefined) throw new Failure(404, TICKET_WORDS.noTicket(number));
  const { id, siteId, asBuiltVersion } = listed;
  const at = `/tickets/${id}`;
  const isPlanner = service.session.person.role !== 'technician';
  const ticketRead = Promise.all([
    service.read<ShownTicket>(at),
    orRefused(service.read<ReadTicketLocation>(`${at}/location`)),
    orRefused(service.read<ReadKit>(`${at}/kit`)),
    service.read<{ items: ToldThing[] }>(`${at}/observations`),
    service.read<{ items: ReadReading[] }>(`${at}/readings`),
    service.read<{ items: ReadLook[] }>(`${at}/looks`),
    service.list<ReadLogEntry>(`${at}/log`),
    service.read<ReadTicketClock>(`${at}/clock`),
  ]);
  const [site, record, visits, people, open] = await Promise.all([
    service.read<ReadSite>(`/sites/${siteId}`),
    service.read<ReadDrawnRecord>(`/sites/${siteId}/as-built?version=${asBuiltVersion}`),
    service.list<ReadVisit>(`/visits?ticket=${id}`),
    isPlanner ? service.list<ReadPerson>('/people?work=technician') : { items: [] },
    service.list<ReadListedTicket>(`/tickets?site=${siteId}&open=true`),
    ticketRead,
  ]);
  const [ticket, location, kit, told, readings, looks, log, clock] = await ticketRead;
  return {
    ticket,
    site,
    record,
    location,
    kit,
    clock,
    told: told.items,
    readings: readings.items,
    looks: looks.items,
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
