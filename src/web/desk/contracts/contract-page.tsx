import { useEffect } from 'preact/hooks';
import { PAGE_LANGUAGE } from '../../parts/language.js';
import type { Service } from '../../parts/service.js';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type {
  ReadClient,
  ReadClosedCalendar,
  ReadContract,
  ReadContractAccount,
  ReadContractVisits,
  ReadSite,
} from '../../parts/wire.js';
import { ContractAccount } from './contract-account.js';
import { termsInWords } from './contract-sentences.js';
import { ContractTickets } from './contract-tickets.js';
import { ContractShouldCost } from './contract-should-cost.js';
import { ContractVisits } from './contract-visits.js';
import { CONTRACT_WORDS } from '../words/words.js';

/** Everything that the page of a contract shows but its tickets. */
export interface ContractRead {
  contract: ReadContract;
  client: ReadClient;
  sites: ReadSite[];
  calendars: ReadClosedCalendar[];
  visits: ReadContractVisits;
  /** Undefined for whoever may not see what contracts cost. */
  account: ReadContractAccount | undefined;
}

export function ContractPage({ id = '' }: { id?: string }) {
  const service = useService();
  const read = useRead(`contract ${id}`, () => readContract(service, id));
  return <Loaded read={read}>{(all) => <ContractView key={id} {...all} />}</Loaded>;
}

async function readContract(service: Service, id: string): Promise<ContractRead> {
  const at = `/contracts/${encodeURIComponent(id)}`;
  const seesCosts = service.session.person.role !== 'dispatcher';
  const contract = await service.read<ReadContract>(at);
  const [client, sites, calendars, visits, account] = await Promise.all([
    service.read<ReadClient>(`/clients/${contract.clientId}`),
    service.list<ReadSite>('/sites'),
    service.list<ReadClosedCalendar>('/closed-calendars'),
    service.read<ReadContractVisits>(`${at}/visits`),
    seesCosts ? service.read<ReadContractAccount>(`${at}/account`) : undefined,
  ]);
  const covered = sites.items.filter((site) => contract.siteIds.includes(site.id));
  return { contract, client, sites: covered, calendars: calendars.items, visits, account };
}

function ContractView(props: ContractRead) {
  const { contract, client, sites, calendars } = props;
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const { role } = useService().session.person;
  useEffect(() => {
    document.title = contract.title;
  }, [contract.title]);
  return (
    <article>
      <div class="line-up">
        <h1 tabIndex={-1} ref={heading}>
          {contract.title}
        </h1>
        <p>{client.name}</p>
        <a class="no-print" href="/desk/contracts">
          {CONTRACT_WORDS.back}
        </a>
        {role !== 'dispatcher' && <ContractLinks id={contract.id} />}
      </div>
      <div class="columns">
        <section>
          <h2>{CONTRACT_WORDS.terms}</h2>
          <ul>
            {termsInWords(contract, calendars).map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        </section>
        <section>
          <h2>{CONTRACT_WORDS.sites}</h2>
          <ul class="plain">
            {sites.map((site) => (
              <li key={site.id}>
                <a href={`/desk/sites/${site.id}`}>{site.name}</a>
              </li>
            ))}
          </ul>
        </section>
      </div>
      <ContractVisits {...props} />
      <ContractTickets {...props} />
      {props.account !== undefined && <ContractAccount {...props} account={props.account} />}
      {role !== 'dispatcher' && <ContractShouldCost contract={props.contract} />}
    </article>
  );
}

/** What its keepers can do about it. */
function ContractLinks({ id }: { id: string }) {
  const review = `/api/v1/contracts/${id}/review`;
  const inLanguage = `?language=${PAGE_LANGUAGE}`;
  return (
    <>
      <a class="no-print" href={`/desk/contracts/${id}/correction`}>
        {CONTRACT_WORDS.correct}
      </a>
      <a class="no-print" href={`/desk/contracts/${id}/next`}>
        {CONTRACT_WORDS.renew}
      </a>
      <a class="no-print" href={`/desk/contracts/${id}/review`}>
        {CONTRACT_WORDS.reviewPage}
      </a>
      <a class="no-print" href={`${review}/paper${inLanguage}`} target="_blank" rel="noreferrer">
        {CONTRACT_WORDS.review}
      </a>
      <a class="no-print" href={`${review}/sheet${inLanguage}`} download target="_self">
        {CONTRACT_WORDS.reviewSheet}
      </a>
    </>
  );
}
