import { useService } from '../../parts/service-context.js';
import { TableWithSheet } from '../../parts/sheet-table.js';
import { Loaded } from '../../parts/states.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadContractClocks } from '../../parts/wire.js';
import { clockColumns } from './clock-columns.js';
import type { ContractRead } from './contract-page.js';
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
          ...clockColumns<ClockedTicket>(words.promises),
        ]}
      />
    </>
  );
}
