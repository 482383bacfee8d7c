import { useState } from 'preact/hooks';
import { Failure } from '../parts/failure.js';
import { FailureLine } from '../parts/failure-line.js';
import { PAGE_FORMATS } from '../parts/language.js';
import { useService } from '../parts/service-context.js';
import { TextField } from '../parts/text-field.js';
import { useFocusOnAppearing, useFocusOnWrong } from '../parts/use-focus.js';
import { useSending } from '../parts/use-sending.js';
import type { ReadWorkTimes } from '../parts/wire.js';
import { useTyped } from './use-typed.js';
import {
  WORK_TIME_GROUPS,
  type TimedWork,
  workTimesDraft,
  workTimesPatch,
} from './firm/work-times-draft.js';
import { goesByInWords } from './firm/work-times-sentences.js';
import { WORK_TIMES_WORDS } from './words/words.js';

const PATH = '/work-times';

function useWorkTimes(times: ReadWorkTimes) {
  const service = useService();
  const typed = useTyped(PATH, times, workTimesDraft(times));
  const [lacking, setLacking] = useState<Failure>();
  const [isSaved, setSaved] = useState(false);
  const { isSending, failure, send } = useSending();
  const save = (event: Event) => {
    event.preventDefault();
    setSaved(false);
    const body = workTimesPatch(typed.base, typed.draft);
    const reason = WORK_TIMES_WORDS.number;
    const errors = Object.entries(body)
      .filter(([, minutes]) => Number.isNaN(minutes))
      .map(([name]) => ({ field: `/${name}`, reason }));
    setLacking(errors.length === 0 ? undefined : new Failure(422, reason, errors));
    if (errors.length > 0) return;
    send(async () => {
      try {
        const sent = { body, ifMatch: typed.source.version };
        const saved = await service.send<ReadWorkTimes>('PATCH', PATH, sent);
        typed.settle(saved, workTimesDraft(saved));
        setSaved(true);
      } catch (error) {
        if (!(error instanceof Failure) || error.status !== 412) throw error;
        const now = await service.read<ReadWorkTimes>(PATH);
        typed.meet(now, workTimesDraft(now));
      }
    });
  };
  const drop = () => {
    setLacking(undefined);
    typed.settle(typed.source, typed.base);
  };
  return { typed, failed: lacking ?? failure, isSaved, isSending, save, drop };
}

/** The minutes to say, each with what plans go by and where that is from. */
export function WorkTimesForm({ times }: { times: ReadWorkTimes }) {
  const { typed, failed, isSaved, isSending, save, drop } = useWorkTimes(times);
  const form = useFocusOnWrong<HTMLFormElement>(failed);
  const words = WORK_TIMES_WORDS;
  const items = new Map(typed.source.items.map((item) => [item.name, item]));
  const field = (name: TimedWork) => {
    const item = items.get(name);
    return (
      <TextField
        key={name}
        label={words.names[name]}
        {...(item && { hint: goesByInWords(item, typed.source.paceVisits) })}
        autocomplete="off"
        value={typed.draft[name]}
        onValue={(minutes) => typed.give({ [name]: minutes })}
        error={failed?.sentenceFor(`/${name}`)}
      />
    );
  };
  return (
    <form onSubmit={save} noValidate ref={form}>
      <p class="hint">{words.empty}</p>
      {(['way', 'look', 'open', 'mend'] as const).map((group) => (
        <fieldset key={group}>
          <legend>{words.groups[group]}</legend>
          <div class="fields">{WORK_TIME_GROUPS[group].map(field)}</div>
        </fieldset>
      ))}
      <FailureLine failure={failed} fields={[...items.keys()].map((name) => `/${name}`)} />
      {typed.meanwhile !== undefined && (
        <ChangedMeanwhile key={typed.source.version} both={typed.meanwhile} />
      )}
      <button type="submit" class="main" aria-disabled={isSending}>
        {isSending ? words.saving : words.save}
      </button>
      <p role="status">{isSaved && !typed.isTyped && words.saved}</p>
      {typed.isTyped && (
        <button type="button" class="small" onClick={drop}>
          {words.drop}
        </button>
      )}
    </form>
  );
}

function ChangedMeanwhile({ both }: { both: readonly TimedWork[] }) {
  const notice = useFocusOnAppearing<HTMLDivElement>();
  const { meanwhile, saveAgain, names, both: inBoth } = WORK_TIMES_WORDS;
  return (
    <div class="notice" role="alert" tabIndex={-1} ref={notice}>
      <p>{meanwhile}</p>
      {both.length > 0 && <p>{inBoth(PAGE_FORMATS.and(both.map((name) => names[name])))}</p>}
      <p>{saveAgain}</p>
    </div>
  );
}
