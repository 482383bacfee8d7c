import { FailureLine } from '../../parts/failure-line.js';
import { PAGE_FORMATS } from '../../parts/language.js';
import { useFocusOnAppearing, useFocusOnWrong } from '../../parts/use-focus.js';
import type { ReadClient, ReadClosedCalendar, ReadContract, ReadSite } from '../../parts/wire.js';
import type { ContractDraft } from './contract-draft.js';
import { ContractMore, ContractWhat } from './contract-fields.js';
import { ContractTimes } from './contract-times.js';
import { useContract } from './use-contract.js';
import { CONTRACT_WORDS } from '../words/words.js';

interface ContractFormProps {
  clients: ReadClient[];
  sites: ReadSite[];
  calendars: ReadClosedCalendar[];
  /** The one that is corrected, or that it follows. */
  before: ReadContract | undefined;
  isCorrection: boolean;
  first: ContractDraft;
}

/** What a group of fields of the form is given. */
export interface ContractFieldsProps extends Omit<ContractFormProps, 'first' | 'isCorrection'> {
  draft: ContractDraft;
  give: (more: Partial<ContractDraft>) => void;
  /** Why the field will not do; by its JSON pointer, or the form's own name of it. */
  wrong: (field: string) => string | undefined;
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
  const { draft, give, wrong, failed, isSending, save, ...entered } = useContract(props);
  const form = useFocusOnWrong<HTMLFormElement>(failed);
  const fields: ContractFieldsProps = { ...props, draft, give, wrong };
  const words = CONTRACT_WORDS.form;
  return (
    <form onSubmit={save} noValidate ref={form}>
      <ContractWhat {...fields} />
      <ContractTimes {...fields} />
      <ContractMore {...fields} />
      <FailureLine failure={failed} fields={SHOWN} />
      {entered.meanwhile !== undefined && (
        <ChangedMeanwhile key={entered.source?.version} both={entered.meanwhile} />
      )}
      <button type="submit" class="main" aria-disabled={isSending}>
        {isSending ? words.saving : words.save}
      </button>
      {entered.isTyped && (
        <p>
          <button type="button" class="small" onClick={entered.dropTyped}>
            {words.drop}
          </button>
        </p>
      )}
    </form>
  );
}

function ChangedMeanwhile({ both }: { both: readonly (keyof ContractDraft)[] }) {
  const notice = useFocusOnAppearing<HTMLDivElement>();
  const { form, changed } = CONTRACT_WORDS;
  return (
    <div class="notice" role="alert" tabIndex={-1} ref={notice}>
      <p>{changed.meanwhile}</p>
      {both.length > 0 && <p>{changed.both(PAGE_FORMATS.and(both.map((one) => form.of[one])))}</p>}
      <p>{changed.saveAgain}</p>
    </div>
  );
}
