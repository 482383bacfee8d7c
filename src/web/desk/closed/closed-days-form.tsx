import { useRef, useState } from 'preact/hooks';
import { uuidv7 } from 'uuidv7';
import { FailureLine } from '../../parts/failure-line.js';
import { keepIn } from '../../parts/kept.js';
import { forgetId, repeatId } from '../../parts/repeat-id.js';
import { useService } from '../../parts/service-context.js';
import { TextField } from '../../parts/text-field.js';
import { useFocusOnWrong } from '../../parts/use-focus.js';
import { useSending } from '../../parts/use-sending.js';
import type { ReadClosedDays } from '../../parts/wire.js';
import { useDraft } from '../use-draft.js';
import {
  type ClosedDaysDraft,
  closedDaysDraft,
  refuseDays,
  withDays,
} from './closed-days-draft.js';
import { ClosedTimesTable } from './closed-times-table.js';
import { DaysFromText } from './closed-days-text.js';
import { CLOSED_DAYS_WORDS } from '../words/words.js';

const kept = keepIn(() => sessionStorage);

/** Of a draft of a new calendar, or of changes of one. */
export function closedDaysPurpose(calendar?: ReadClosedDays): string {
  return calendar === undefined ? 'closed days' : `closed days ${calendar.id}`;
}

interface ClosedDaysFormProps {
  /** To be changed; else one is added. */
  calendar?: ReadClosedDays;
  onKept: (name: string) => void;
  /** Somebody else changed it: it is to be read anew. */
  onStale: () => void;
}

/** What is typed of a calendar, and keeping it: as a new one, or in place of what was read. */
function useClosedDays({ calendar, onKept, onStale }: ClosedDaysFormProps) {
  const service = useService();
  const first = closedDaysDraft(calendar);
  const { draft, give, settle } = useDraft<ClosedDaysDraft>(closedDaysPurpose(calendar), first);
  const { isSending, failure, send } = useSending();
  const put = async (body: { name: string; times: ReadClosedDays['times'] }) => {
    const path = '/closed-calendars';
    if (calendar !== undefined) {
      const { id, version } = calendar;
      await service.send('PATCH', `${path}/${id}`, { body, ifMatch: version });
      return;
    }
    await service.send('POST', path, { body: { id: repeatId(kept, path, body, uuidv7), ...body } });
    forgetId(kept, path);
  };
  const keep = (event: Event) => {
    event.preventDefault();
    send(async () => {
      const body = { name: draft.name.trim(), times: draft.times };
      try {
        await put(body);
      } catch (error) {
        onStale();
        throw error;
      }
      // What is typed next goes on from what was kept, or begins anew.
      settle(calendar === undefined ? first : { ...first, ...body });
      onKept(body.name);
    });
  };
  return { draft, give, isSending, failure, keep, drop: () => settle(first) };
}

/** A calendar: its name, and its days from a text or by hand, all seen before it is kept. */
export function ClosedDaysForm(props: ClosedDaysFormProps) {
  const { draft, give, isSending, failure, keep, drop } = useClosedDays(props);
  const form = useFocusOnWrong<HTMLFormElement>(failure);
  // What is read comes later: by then more may be typed.
  const latest = useRef(give);
  latest.current = give;
  const words = CLOSED_DAYS_WORDS;
  const isStale = failure?.status === 412;
  return (
    <form onSubmit={keep} noValidate ref={form}>
      <TextField
        label={words.name}
        autocomplete="off"
        maxLength={200}
        value={draft.name}
        onValue={(name) => give({ name })}
        error={failure?.sentenceFor('/name')}
      />
      <DaysFromText
        text={draft.text}
        onText={(text) => give({ text })}
        onRead={({ times }) => latest.current({ times })}
      />
      <DaysByHand draft={draft} give={give} />
      <p class="strong">{words.willClose}</p>
      <ClosedTimesTable
        times={draft.times}
        onTakeOut={(index) => give({ times: draft.times.filter((_, at) => at !== index) })}
      />
      {isStale ? (
        <p class="error" role="alert">
          {words.changed}
        </p>
      ) : (
        <FailureLine failure={failure} fields={['/name']} />
      )}
      <p class="buttons">
        <button type="submit" class="main" aria-disabled={isSending}>
          {words.keep}
        </button>
        <button type="button" onClick={drop}>
          {words.drop}
        </button>
      </p>
    </form>
  );
}

interface DaysByHandProps {
  draft: ClosedDaysDraft;
  give: (more: Partial<ClosedDaysDraft>) => void;
}

function DaysByHand({ draft, give }: DaysByHandProps) {
  const words = CLOSED_DAYS_WORDS;
  const [wrong, setWrong] = useState<'noFirst' | 'lastBefore'>();
  const fields = useFocusOnWrong<HTMLDetailsElement>(wrong);
  const add = () => {
    const refused = refuseDays(draft);
    setWrong(refused);
    if (refused === undefined) give(withDays(draft, words.title));
  };
  const { first, last, what } = draft;
  return (
    <details open={first !== '' || last !== '' || what !== ''} ref={fields}>
      <summary>{words.byHand}</summary>
      <TextField
        label={words.first}
        type="date"
        autocomplete="off"
        value={first}
        onValue={(day) => give({ first: day })}
        error={wrong === 'noFirst' ? words.noFirst : undefined}
      />
      <TextField
        label={words.last}
        type="date"
        autocomplete="off"
        value={last}
        onValue={(day) => give({ last: day })}
        error={wrong === 'lastBefore' ? words.lastBefore : undefined}
      />
      <TextField
        label={words.what}
        autocomplete="off"
        maxLength={200}
        value={what}
        onValue={(name) => give({ what: name })}
      />
      <button type="button" onClick={add}>
        {words.addDays}
      </button>
    </details>
  );
}
