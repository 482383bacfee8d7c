import { uuidv7 } from 'uuidv7';
import { keepIn } from '../../parts/kept.js';
import { forgetId, repeatId } from '../../parts/repeat-id.js';
import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import { LongText } from '../../parts/text-field.js';
import { useFocusOnWrong } from '../../parts/use-focus.js';
import { useSending } from '../../parts/use-sending.js';
import { useDraft, useIsBegun } from '../use-draft.js';
import { BOOK_VISIT_WORDS } from '../words/words.js';
import type { ChangedVisitProps } from './visit-page.js';

const kept = keepIn(() => sessionStorage);

/** What the office makes of a visit that nobody began: it is not wanted, or wanted after all. */
const ENDINGS = { planned: 'called-off', 'called-off': 'planned' } as const;

type Ended = keyof typeof ENDINGS;

/** Calls a visit off, or has it wanted again; of one that somebody began, or that is over, nothing. */
export function CallOffForm(props: ChangedVisitProps) {
  const { state } = props.visit;
  return state in ENDINGS ? <EndForm key={state} {...props} state={state as Ended} /> : null;
}

function EndForm({ visit, state, onChanged, onDone }: ChangedVisitProps & { state: Ended }) {
  const words = BOOK_VISIT_WORDS.change.ends[state];
  const service = useService();
  const to = ENDINGS[state];
  const purpose = `${to} of ${visit.id}`;
  const isBegun = useIsBegun(purpose);
  const { draft, give, settle } = useDraft(purpose, { reason: '' });
  const { isSending, failure, send } = useSending();
  const form = useFocusOnWrong<HTMLFormElement>(failure);
  const end = (event: Event) => {
    event.preventDefault();
    send(async () => {
      const path = `/visits/${visit.id}/moves`;
      const move = { to, by: service.session.person.name, reason: draft.reason.trim() || null };
      try {
        const body = { id: repeatId(kept, path, move, uuidv7), ...move };
        await service.send('POST', path, { body });
        forgetId(kept, path);
        settle();
        onDone(words.done);
      } finally {
        onChanged();
      }
    });
  };
  return (
    <details open={isBegun}>
      <summary>{words.button}</summary>
      <form onSubmit={end} noValidate ref={form}>
        <p class="hint">{words.hint}</p>
        <LongText
          label={words.why}
          value={draft.reason}
          onValue={(reason) => give({ reason })}
          error={failure?.sentenceFor('/reason')}
        />
        <FailureLine failure={failure} fields={['/reason']} />
        <p>
          <button type="submit" class="main" aria-disabled={isSending}>
            {words.button}
          </button>
        </p>
      </form>
    </details>
  );
}
