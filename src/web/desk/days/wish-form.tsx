import { useId, useState } from 'preact/hooks';
import { Failure } from '../../parts/failure.js';
import { FailureLine } from '../../parts/failure-line.js';
import { useService } from '../../parts/service-context.js';
import { TextField } from '../../parts/text-field.js';
import { useFocusOnWrong } from '../../parts/use-focus.js';
import { useSending } from '../../parts/use-sending.js';
import type { ReadJobWish } from '../../parts/wire.js';
import type { JobPanelProps } from './job-panel.js';
import { useDraft } from '../use-draft.js';
import { wishChoices } from './wish-choices.js';
import { DAY_WORDS } from '../words/words.js';

type WishFormProps = JobPanelProps & { wish: ReadJobWish };

/** What is chosen, and what came of keeping it. */
function useWish({ job, day, technicians, onChanged, wish: first }: WishFormProps) {
  const service = useService();
  const [wish, setWish] = useState(first);
  const choices = wishChoices(wish, technicians);
  const { draft, give, settle } = useDraft(`wish for ${job.jobId} on ${day}`, {
    wanted: choices.find(({ isNow }) => isNow)?.key ?? '',
    reason: wish.reason ?? '',
  });
  const { wanted, reason } = draft;
  const [lacking, setLacking] = useState<Failure>();
  const { isSending, failure, send } = useSending();
  const keep = (event: Event) => {
    event.preventDefault();
    const chosen = choices.find(({ key }) => key === wanted);
    if (chosen === undefined) return;
    const isMissing = chosen.key !== '' && reason.trim() === '';
    const errors = [{ field: '/reason', reason: DAY_WORDS.noReason }];
    setLacking(isMissing ? new Failure(422, DAY_WORDS.noReason, errors) : undefined);
    if (isMissing) return;
    send(async () => {
      const body = { ...chosen.fields, reason: reason.trim() || null };
      const path = `/plans/jobs/${job.jobId}/wish`;
      // What is wanted next stands on what was kept.
      setWish(await service.send<ReadJobWish>('PUT', path, { body, ifMatch: wish.version }));
      settle(draft);
      await service.send('POST', `/plans/days/${day}`, { body: {} }).finally(onChanged);
    });
  };
  const wrong = lacking ?? failure;
  return { choices, wanted, reason, give, wrong, isSending, keep };
}

/** Who does a job or does not, and why; the day is planned anew with it. */
export function WishForm(props: WishFormProps) {
  const { nameOf } = props;
  const id = useId();
  const { choices, wanted, reason, give, wrong, isSending, keep } = useWish(props);
  const form = useFocusOnWrong<HTMLFormElement>(wrong);
  return (
    <form onSubmit={keep} noValidate ref={form}>
      <h3>{DAY_WORDS.want}</h3>
      <p class="field">
        <label for={id}>{DAY_WORDS.who}</label>
        <select
          id={id}
          value={wanted}
          onChange={({ currentTarget: { value } }) => give({ wanted: value })}
        >
          {choices.map(({ key, kind, personId }) => (
            <option key={key} value={key}>
              {kind === 'best' ? DAY_WORDS.asBest : DAY_WORDS[kind](nameOf(personId))}
            </option>
          ))}
        </select>
      </p>
      <TextField
        label={DAY_WORDS.reason}
        autocomplete="off"
        maxLength={500}
        value={reason}
        onValue={(why) => give({ reason: why })}
        error={wrong?.sentenceFor('/reason')}
      />
      <FailureLine failure={wrong} fields={['/reason']} />
      <button type="submit" class="main" aria-disabled={isSending}>
        {isSending ? DAY_WORDS.keeping : DAY_WORDS.keep}
      </button>
    </form>
  );
}
