import { useService } from '../../parts/service-context.js';
import { TextField } from '../../parts/text-field.js';
import { useFocusOnWrong } from '../../parts/use-focus.js';
import type { ReadWorkTimes } from '../../parts/wire.js';
import { CorrectionEnd, useCorrection } from '../correction.js';
import {
  WORK_TIME_GROUPS,
  type TimedWork,
  type WorkTimesDraft,
  workTimesDraft,
  workTimesPatch,
} from './work-times-draft.js';
import { goesByInWords } from './work-times-sentences.js';
import { WORK_TIMES_WORDS } from '../words/words.js';

const PATH = '/work-times';

/** What was changed of it, and which of that is no number. */
function poseTimes(draft: WorkTimesDraft, base: WorkTimesDraft) {
  const body = workTimesPatch(base, draft);
  const reason = WORK_TIMES_WORDS.number;
  const errors = Object.entries(body)
    .filter(([, minutes]) => Number.isNaN(minutes))
    .map(([name]) => ({ field: `/${name}`, reason }));
  return { body, errors };
}

/** The minutes to say, each with what plans go by and where that is from. */
export function WorkTimesForm({ times }: { times: ReadWorkTimes }) {
  const service = useService();
  const correction = useCorrection({
    method: 'PATCH',
    path: PATH,
    source: times,
    draftOf: workTimesDraft,
    pose: poseTimes,
    readAgain: () => service.read<ReadWorkTimes>(PATH),
  });
  const { typed, failed, save } = correction;
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
      <CorrectionEnd
        correction={correction}
        shown={[...items.keys()].map((name) => `/${name}`)}
        nameOf={(name) => words.names[name]}
      />
    </form>
  );
}
