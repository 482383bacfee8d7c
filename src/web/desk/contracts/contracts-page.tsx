import { useCallback, useEffect, useState } from 'preact/hooks';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadClient, ReadContract } from '../../parts/wire.js';
import { longDay } from '../../parts/time-words.js';
import { lastDay } from './contract-sentences.js';
import {
  type ContractFigures,
  FeeAndCost,
  useContractFigures,
  VisitsAndBreaches,
} from './contract-figures.js';
import { ContractsSheet } from './contracts-sheet.js';
import { today } from '../../parts/local-day.js';
import { CLOSED_DAYS_WORDS, CONTRACT_WORDS } from '../words/words.js';

/** What did we promise, what did we keep, what does it cost us? */
export function ContractsPage() {
  const service = useService();
  const { role } = service.session.person;
  useEffect(() => {
    document.title = CONTRACT_WORDS.title;
  }, []);
  const [isAll, setAll] = useState(false);
  const read = useRead(`contracts ${isAll}`, async () => {
    const [contracts, clients] = await Promise.all([
      service.list<ReadContract>(isAll ? '/contracts' : `/contracts?on=${today()}`),
      service.list<ReadClient>('/clients'),
    ]);
    return { contracts: contracts.items, clients: clients.items };
  });
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  if (role === 'technician') return <p>{CONTRACT_WORDS.notOffice}</p>;
  return (
    <article>
      <div class="line-up">
        <h1 tabIndex={-1} ref={heading}>
          {CONTRACT_WORDS.title}
        </h1>
        {role !== 'dispatcher' && (
          <>
            <a href="/desk/contracts/new">{CONTRACT_WORDS.make}</a>
            <a href="/desk/contracts/closed-days">{CLOSED_DAYS_WORDS.title}</a>
          </>
        )}
      </div>
      <div class="buttons no-print" role="group" aria-label={CONTRACT_WORDS.which}>
        {[false, true].map((all) => (
          <button
            key={String(all)}
            type="button"
            class="small"
            aria-pressed={isAll === all}
            onClick={() => setAll(all)}
          >
            {all ? CONTRACT_WORDS.all : CONTRACT_WORDS.inForce}
          </button>
        ))}
      </div>
      <Loaded read={read}>{(known) => <ContractList {...known} />}</Loaded>
    </article>
  );
}

interface ContractListProps {
  contracts: ReadContract[];
  clients: ReadClient[];
}

function ContractList({ contracts, clients }: ContractListProps) {
  const { name, client, sites, from, last, visits, breaches, feeAndCost } = CONTRACT_WORDS;
  const [figures, setFigures] = useState<Readonly<Record<string, ContractFigures>>>({});
  const keep = useCallback((id: string, read: ContractFigures) => {
    setFigures((before) => ({ ...before, [id]: read }));
  }, []);
  const heads = [name, client, sites, from, last, visits, breaches, feeAndCost];
  if (contracts.length === 0) return <p class="empty">{CONTRACT_WORDS.none}</p>;
  return (
    <>
      <p class="hint">{CONTRACT_WORDS.soFar}</p>
      <div class="scrolls" tabIndex={0} role="region" aria-label={CONTRACT_WORDS.title}>
        <table class="stacks">
          <thead>
            <tr>
              {heads.map((words) => (
                <th key={words} scope="col">
                  {words}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {contracts.map((contract) => (
              <ContractRow
                key={contract.id}
                contract={contract}
                client={clients.find(({ id }) => id === contract.clientId)}
                onRead={keep}
              />
            ))}
          </tbody>
        </table>
      </div>
      <ContractsSheet contracts={contracts} clients={clients} figures={figures} />
    </>
  );
}

interface ContractRowProps {
  contract: ReadContract;
  client: ReadClient | undefined;
  onRead: (id: string, figures: ContractFigures) => void;
}

function ContractRow({ contract, client, onRead }: ContractRowProps) {
  const figures = useContractFigures(contract);
  const { id } = contract;
  const { value } = figures;
  useEffect(() => {
    if (value !== undefined) onRead(id, value);
  }, [id, value, onRead]);
  const words = CONTRACT_WORDS;
  return (
    <tr>
      <th scope="row">
        <a href={`/desk/contracts/${contract.id}`}>{contract.title}</a>
      </th>
      <td data-head={words.client}>{client?.name}</td>
      <td data-head={words.sites}>{words.siteCount(contract.siteIds.length)}</td>
      <td data-head={words.from}>{longDay(contract.from)}</td>
      <td data-head={words.last}>{lastDay(contract.until)}</td>
      <VisitsAndBreaches read={figures} />
      <td data-head={words.feeAndCost}>
        <FeeAndCost read={figures} contract={contract} />
      </td>
    </tr>
  );
}
