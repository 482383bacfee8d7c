import type { Failure } from '../../parts/failure.js';
import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import { TextField } from '../../parts/text-field.js';
import { useFocusOnWrong } from '../../parts/use-focus.js';
import { useSending } from '../../parts/use-sending.js';
import type { ReadVisit } from '../../parts/wire.js';
import { useDraft } from '../use-draft.js';
import { BOOK_VISIT_WORDS } from '../words/words.js';
import { changesOf, isMoved, type TypedChange, typedOf } from './visit-change.js';
import type { ChangedVisitProps } from './visit-page.js';
import { WhenAndWho } from './when-and-who.js';
import { whenInWords } from './when-in-words.js';

const FIELDS = ['/on', '/fromTime', '/untilTime', '/technicianId', '/reason'];

interface ChangeDraft extends TypedChange {
  reason: string;
}

/** Moves a visit to another time, or sends somebody else; what is asked about goes through once it is said to be meant so. */
export function ChangeVisitForm(props: ChangedVisitProps) {
  const { visit } = props;
  const { draft, give, settle } = useDraft<Partial<ChangeDraft>>(`change of ${visit.id}`, {});
  const { isSending, failure, change } = useChange(props, draft, settle);
  const form = useFocusOnWrong<HTMLFormElement>(failure);
  const asked = failure?.confirm ?? [];
  const submit = (event: Event) => {
    event.preventDefault();
    change([]);
  };
  return (
    <form onSubmit={submit} noValidate ref={form}>
      <h2>{BOOK_VISIT_WORDS.change.heading}</h2>
      <ChangeFields {...props} {...{ draft, give, failure }} />
      <FailureLine failure={failure} fields={FIELDS} />
      <p class="buttons">
        <button type="submit" class="main" aria-disabled={isSending}>
          {BOOK_VISIT_WORDS.change.save}
        </button>
        {asked.length > 0 && (
          <button type="button" aria-disabled={isSending} onClick={() => change(asked)}>
            {BOOK_VISIT_WORDS.change.meantSo}
          </button>
        )}
      </p>
    </form>
  );
}

function useChange(
  { visit, onChanged, onDone }: ChangedVisitProps,
  draft: Partial<ChangeDraft>,
  settle: () => void,
) {
  const service = useService();
  const { isSending, failure, send } = useSending();
  const change = (confirmed: readonly string[]) =>
    send(async () => {
      const changes = changesOf(visit, draft);
      if (Object.keys(changes).length === 0) {
        onDone(BOOK_VISIT_WORDS.change.nothing);
        return;
      }
      const body = { ...changes, reason: draft.reason?.trim() || null, confirmed };
      try {
        const asked = { body, ifMatch: visit.version };
        const now = await service.send<ReadVisit>('PATCH', `/visits/${visit.id}`, asked);
        settle();
        onDone(BOOK_VISIT_WORDS.change.saved(whenInWords(now)));
      } finally {
        // Whoever was too late sees what it is by now.
        onChanged();
      }
    });
  return { isSending, failure, change };
}

interface ChangeFieldsProps extends ChangedVisitProps {
  draft: Partial<ChangeDraft>;
  give: (more: Partial<ChangeDraft>) => void;
  failure: Failure | undefined;
}

function ChangeFields({ visit, site, technicians, draft, give, failure }: ChangeFieldsProps) {
  const shown: ChangeDraft = { ...typedOf(visit), reason: '', ...draft };
  return (
    <>
      <WhenAndWho zone={site.zone} {...{ technicians, shown, give, failure }} />
      {(isMoved(changesOf(visit, draft)) || shown.reason !== '') && (
        <TextField
          label={BOOK_VISIT_WORDS.change.why}
          autocomplete="off"
          maxLength={2000}
          value={shown.reason}
          onValue={(reason) => give({ reason })}
          error={failure?.sentenceFor('/reason')}
        />
      )}
    </>
  );
}
