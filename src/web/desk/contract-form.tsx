import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { uuidv7 } from 'uuidv7';
import { Failure } from '../parts/failure.js';
import { FailureLine } from '../parts/failure-line.js';
import { keepIn } from '../parts/kept.js';
import { forgetId, repeatId } from '../parts/repeat-id.js';
import { useService } from '../parts/service-context.js';
import { useFocusOnWrong } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import type { ReadClient, ReadClosedCalendar, ReadContract, ReadSite } from '../parts/wire.js';
import { type ContractDraft, findNotNumbers, poseContract } from './contract-draft.js';
import { ContractMore, ContractWhat } from './contract-fields.js';
import { ContractTimes } from './contract-times.js';
import { CONTRACT_WORDS } from './words/contract.js';

interface ContractFormProps {
  clients: ReadClient[];
  sites: ReadSite[];
  calendars: ReadClosedCalendar[];
  /** The one that it follows. */
  before: ReadContract | undefined;
  first: ContractDraft;
}

/** What a group of fields of the form is given. */
export interface ContractFieldsProps extends Omit<ContractFormProps, 'first'> {
  draft: ContractDraft;
  give: (more: Partial<ContractDraft>) => void;
  /** Why the field will not do; by its JSON pointer, or the form's own name of it. */
  wrong: (field: string) => string | undefined;
}

const kept = keepIn(() => sessionStorage);

/** What was entered, and what came of saving it. */
function useContract({ before, first }: ContractFormProps) {
  const service = useService();
  const { route } = useLocation();
  const [draft, setDraft] = useState(first);
  const [lacking, setLacking] = useState<Failure>();
  const { isSending, failure, send } = useSending();
  const { body, fieldAt } = poseContract(draft, before);
  const save = (event: Event) => {
    event.preventDefault();
    const reason = CONTRACT_WORDS.form.number;
    const errors = findNotNumbers(body).map((field) => ({ field, reason }));
    setLacking(errors.length === 0 ? undefined : new Failure(422, reason, errors));
    if (errors.length > 0) return;
    send(async () => {
      const path = before === undefined ? '/contracts' : `/contracts/${before.id}/renewal`;
      const sent = { id: repeatId(kept, path, body, uuidv7), ...body };
      const made = await service.send<ReadContract>('POST', path, { body: sent });
      forgetId(kept, path);
      route(`/desk/contracts/${made.id}`);
    });
  };
  const failed = lacking ?? failure;
  const wrong = (field: string) => failed?.sentenceFor(fieldAt[field] ?? field);
  const give = (more: Partial<ContractDraft>) => setDraft({ ...draft, ...more });
  return { draft, give, wrong, failed, isSending, save };
}

/** Where the form shows what is wrong itself. */
const SHOWN = [
  '/title',
  '/clientId',
  '/siteIds',
  '/from',
  '/until',
  '/visitsPerYear',
  '/callOutsPerYear',
  '/feeMinor',
  '/currency',
  '/promises',
  '/coverage/windows',
  '/exclusions',
  '/noticeDays',
];

export function ContractForm(props: ContractFormProps) {
  const { draft, give, wrong, failed, isSending, save } = useContract(props);
  const form = useFocusOnWrong<HTMLFormElement>(failed);
  const fields: ContractFieldsProps = { ...props, draft, give, wrong };
  return (
    <form onSubmit={save} noValidate ref={form}>
      <ContractWhat {...fields} />
      <ContractTimes {...fields} />
      <ContractMore {...fields} />
      <FailureLine failure={failed} fields={SHOWN} />
      <button type="submit" class="main" aria-disabled={isSending}>
        {isSending ? CONTRACT_WORDS.form.saving : CONTRACT_WORDS.form.save}
      </button>
    </form>
  );
}
