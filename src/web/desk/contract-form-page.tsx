import { useEffect } from 'preact/hooks';
import { useService } from '../parts/service-context.js';
import { Loaded } from '../parts/states.js';
import { useFocusOnAppearing } from '../parts/use-focus.js';
import { useRead } from '../parts/use-read.js';
import type { ReadClient, ReadClosedCalendar, ReadContract, ReadSite } from '../parts/wire.js';
import { newDraft, nextDraft } from './contract-draft.js';
import { ContractForm } from './contract-form.js';
import { today } from '../parts/local-day.js';
import { CONTRACT_WORDS } from './words/contract.js';

/** A contract to be made: from nothing, or as the next one after another. */
export function ContractFormPage({ id }: { id?: string }) {
  const service = useService();
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const read = useRead(`contract form ${id}`, async () => {
    const [clients, sites, calendars, before] = await Promise.all([
      service.list<ReadClient>('/clients'),
      service.list<ReadSite>('/sites'),
      service.list<ReadClosedCalendar>('/closed-calendars'),
      id === undefined ? undefined : service.read<ReadContract>(`/contracts/${id}`),
    ]);
    const draft = before === undefined ? newDraft(today()) : nextDraft(before);
    return {
      clients: clients.items,
      sites: sites.items,
      calendars: calendars.items,
      before,
      draft,
    };
  });
  useEffect(() => {
    document.title = CONTRACT_WORDS.make;
  }, []);
  const before = read.value?.before;
  return (
    <div class="narrow">
      <h1 tabIndex={-1} ref={heading}>
        {before === undefined ? CONTRACT_WORDS.make : CONTRACT_WORDS.renewOf(before.title)}
      </h1>
      <p>
        <a href="/desk/contracts">{CONTRACT_WORDS.back}</a>
      </p>
      <Loaded read={read}>
        {(known) => <ContractForm key={id} {...known} first={known.draft} />}
      </Loaded>
    </div>
  );
}
