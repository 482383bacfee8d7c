import { useService } from '../../parts/service-context.js';
import { TableWithSheet } from '../../parts/sheet-table.js';
import { Loaded } from '../../parts/states.js';
import { atSite } from '../../parts/time-words.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadContractClocks, ReadTicketClock } from '../../parts/wire.js';
import type { ContractRead } from './contract-page.js';
import { clockInWords, TROUBLE_WORDS } from './contract-sentences.js';
import { CONTRACT_WORDS } from '../words/words.js';

type ClockedTicket = ReadContractClocks['items'][number];

/** The tickets that the contract's clocks ran for, newest first. */
export function ContractTickets(props: ContractRead) {
  const service = useService();
  const { id } = props.contract;
  const read = useRead(`clocks of ${id}`, () =>
    service.read<ReadContractClocks>(`/contracts/${id}/clocks`),
  );
  return (
    <section>
      <h2>{CONTRACT_WORDS.tickets}</h2>
      <Loaded read={read}>
        {({ items, isCutOff }) => <TicketTable {...props} clocked={items} isCut={isCutOff} />}
      </Loaded>
    </section>
  );
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
      {isCut && <p>{words.ticketsCut(clocked.length)}</p>}
      <TableWithSheet
        label={words.tickets}
        download={words.csv}
        fileName={`${contract.title}, ${words.tickets}`}
        rows={clocked}
        keyOf={({ clock }) => clock.ticketId}
        columns={[
          {
            head: words.ticket,
            value: ({ number }) => number,
            shown: ({ number }) => <a href={`/desk/tickets/${number}`}>{number}</a>,
          },
          { head: words.site, value: ({ siteId }) => siteOf(siteId)?.name ?? '' },
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
