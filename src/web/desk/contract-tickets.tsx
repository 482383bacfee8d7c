import type { Service } from '../parts/service.js';
import { useService } from '../parts/service-context.js';
import { TableWithSheet } from '../parts/sheet-table.js';
import { Loaded } from '../parts/states.js';
import { atSite } from '../parts/time-words.js';
import { useRead } from '../parts/use-read.js';
import type { ReadListedTicket, ReadTicketClock } from '../parts/wire.js';
import type { ContractRead } from './contract-page.js';
import { clockInWords, TROUBLE_WORDS } from './contract-sentences.js';
import { CONTRACT_WORDS } from './words/contract.js';

/** Clocks that the page reads; each is a request. */
const MOST = 60;

interface ClockedTicket {
  ticket: ReadListedTicket;
  clock: ReadTicketClock;
}

/** The tickets that the contract's clocks ran for, newest first. */
export function ContractTickets(props: ContractRead) {
  const service = useService();
  const read = useRead(`tickets of ${props.contract.id}`, () => readTickets(service, props));
  return (
    <section>
      <h2>{CONTRACT_WORDS.tickets}</h2>
      <Loaded read={read}>{(found) => <TicketTable {...props} {...found} />}</Loaded>
    </section>
  );
}

async function readTickets(service: Service, { contract, sites }: ContractRead) {
  const lists = await Promise.all(
    sites.map(({ id }) => service.list<ReadListedTicket>(`/tickets?site=${id}`)),
  );
  // By days alone: the clock says to the minute whether it went by this contract.
  const inTime = lists
    .flatMap(({ items }) => items)
    .filter(({ openedAt }) => {
      const day = openedAt.slice(0, 10);
      return contract.from <= day && day <= contract.until;
    })
    .sort((a, b) => b.openedAt.localeCompare(a.openedAt));
  const clocked = await Promise.all(
    inTime.slice(0, MOST).map(async (ticket): Promise<ClockedTicket> => ({
      ticket,
      clock: await service.read<ReadTicketClock>(`/tickets/${ticket.id}/clock`),
    })),
  );
  return {
    clocked: clocked.filter(({ clock }) => clock.contractId === contract.id),
    isCut: inTime.length > MOST,
  };
}

interface TicketTableProps extends ContractRead {
  clocked: ClockedTicket[];
  isCut: boolean;
}

function TicketTable({ contract, sites, clocked, isCut }: TicketTableProps) {
  const words = CONTRACT_WORDS;
  if (clocked.length === 0) return <p>{words.noTickets}</p>;
  const siteOf = (id: string) => sites.find((site) => site.id === id);
  const promise = (name: 'response' | 'restore') => ({
    head: words.promises[name],
    value: ({ clock }: ClockedTicket) =>
      clock.promises
        .filter((one) => one.promise === name)
        .map(clockInWords)
        .join('; '),
    shown: ({ clock }: ClockedTicket) =>
      clock.promises
        .filter((one) => one.promise === name)
        .map((one) => <PromiseLines key={name} promise={one} />),
  });
  return (
    <>
      {isCut && <p>{words.ticketsCut(MOST)}</p>}
      <TableWithSheet
        label={words.tickets}
        download={words.csv}
        fileName={`${contract.title}, ${words.tickets}`}
        rows={clocked}
        keyOf={({ ticket }) => ticket.id}
        columns={[
          {
            head: words.ticket,
            value: ({ ticket }) => ticket.number,
            shown: ({ ticket }) => <a href={`/desk/tickets/${ticket.number}`}>{ticket.number}</a>,
          },
          { head: words.site, value: ({ ticket }) => siteOf(ticket.siteId)?.name ?? '' },
          {
            head: words.reported,
            value: ({ clock }) => clock.reportedAt,
            shown: ({ clock }) => atSite(clock.reportedAt, clock.zone),
          },
          { head: words.trouble, value: ({ clock }) => TROUBLE_WORDS[clock.troubleClass] },
          promise('response'),
          promise('restore'),
        ]}
      />
    </>
  );
}

/** A clock as it stands, with how it was reckoned to be opened. */
function PromiseLines({ promise }: { promise: ReadTicketClock['promises'][number] }) {
  const { state, cause, lines, words } = promise;
  return (
    <>
      <span class={state === 'breached' ? 'fresh' : undefined}>{clockInWords(promise)}</span>
      {cause !== null && <p>{CONTRACT_WORDS.cause(cause)}</p>}
      <details>
        <summary class="soft">{CONTRACT_WORDS.lines}</summary>
        <p>{words}</p>
        <ol class="plain">
          {lines.map((line, index) => (
            <li key={index}>{line.words}</li>
          ))}
        </ol>
      </details>
    </>
  );
}
