import { useEffect } from 'preact/hooks';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { useFocusOnAppearing } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadClient, ReadClosedCalendar, ReadContract, ReadSite } from '../../parts/wire.js';
import { draftOf, newDraft, nextDraft } from './contract-draft.js';
import { ContractForm } from './contract-form.js';
import { KeepersOnly } from './keepers-only.js';
import { today } from '../../parts/local-day.js';
import { CONTRACT_WORDS } from '../words/words.js';

interface ContractFormPageProps {
  id?: string;
  /** The contract itself is corrected, rather than the next one made. */
  isCorrection?: boolean;
}

/** A contract to be made, from nothing or as the next one after another; or one to be corrected. */
export function ContractFormPage({ id, isCorrection = false }: ContractFormPageProps) {
  const title =
    id === undefined
      ? CONTRACT_WORDS.make
      : isCorrection
        ? CONTRACT_WORDS.correct
        : CONTRACT_WORDS.renew;
  return (
    <KeepersOnly title={title}>
      <FormToFill {...(id !== undefined && { id })} isCorrection={isCorrection} />
    </KeepersOnly>
  );
}

function FormToFill({ id, isCorrection = false }: ContractFormPageProps) {
  const service = useService();
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const read = useRead(`contract form ${id} ${isCorrection}`, async () => {
    const [clients, sites, calendars, before] = await Promise.all([
      service.list<ReadClient>('/clients'),
      service.list<ReadSite>('/sites'),
      service.list<ReadClosedCalendar>('/closed-calendars'),
      id === undefined ? undefined : service.read<ReadContract>(`/contracts/${id}`),
    ]);
    const draft = isCorrection ? draftOf : nextDraft;
    return {
      clients: clients.items,
      sites: sites.items,
      calendars: calendars.items,
      before,
      first: before === undefined ? newDraft(today()) : draft(before),
    };
  });
  const title = read.value?.before?.title;
  const words =
    title === undefined
      ? CONTRACT_WORDS.make
      : isCorrection
        ? CONTRACT_WORDS.correctionOf(title)
        : CONTRACT_WORDS.renewOf(title);
  useEffect(() => {
    document.title = words;
  }, [words]);
  return (
    <div class="narrow">
      <h1 tabIndex={-1} ref={heading}>
        {words}
      </h1>
      <p>
        <a href={isCorrection ? `/desk/contracts/${id}` : '/desk/contracts'}>
          {isCorrection ? CONTRACT_WORDS.backToOne : CONTRACT_WORDS.back}
        </a>
      </p>
      {isCorrection && <p class="hint">{CONTRACT_WORDS.correctHint}</p>}
      <Loaded read={read}>
        {(known) => <ContractForm key={id} {...known} isCorrection={isCorrection} />}
      </Loaded>
    </div>
  );
}

export function ContractCorrectionPage({ id }: { id?: string }) {
  return <ContractFormPage {...(id !== undefined && { id })} isCorrection />;
}
