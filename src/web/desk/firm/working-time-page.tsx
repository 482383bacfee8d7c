import { useEffect } from 'preact/hooks';
import { TickField } from '../../parts/choose-field.js';
import { Failure } from '../../parts/failure.js';
import type { Service } from '../../parts/service.js';
import { useService } from '../../parts/service-context.js';
import { Loaded } from '../../parts/states.js';
import { TextField } from '../../parts/text-field.js';
import { useFocusOnAppearing, useFocusOnWrong } from '../../parts/use-focus.js';
import { useRead } from '../../parts/use-read.js';
import type { ReadWorkingTime } from '../../parts/wire.js';
import { weekdayName } from '../contracts/contract-sentences.js';
import { CorrectionEnd, useCorrection } from '../correction.js';
import { DaysOff } from './days-off.js';
import {
  asOnMonday,
  poseWorking,
  typedWeekdays,
  type WorkingDraft,
  workingDraft,
} from './planning-draft.js';
import { PLANNING_WORDS } from '../words/words.js';

/** When a technician works, what for, and where their days begin. */
export function WorkingTimePage({ id = '' }: { id?: string }) {
  const service = useService();
  const read = useRead(`working time ${id}`, () => readTime(service, id));
  return <Loaded read={read}>{(time) => <WorkingTimeView key={id} time={time} />}</Loaded>;
}

async function readTime(service: Service, id: string): Promise<ReadWorkingTime> {
  const { items } = await service.read<{ items: ReadWorkingTime[] }>('/working-times');
  const time = items.find(({ personId }) => personId === id);
  if (time === undefined) throw new Failure(404, id);
  return time;
}

function WorkingTimeView({ time }: { time: ReadWorkingTime }) {
  const { role } = useService().session.person;
  const heading = useFocusOnAppearing<HTMLHeadingElement>();
  const words = PLANNING_WORDS;
  const isPlanner = role === 'owner' || role === 'dispatcher';
  useEffect(() => {
    document.title = time.name;
  }, [time.name]);
  return (
    <article>
      <h1 tabIndex={-1} ref={heading}>
        {time.name}
      </h1>
      <p>
        <a href="/desk/planning">{words.title}</a>{' '}
        <a href={`/desk/planning/${time.personId}/van`}>{words.van.title(time.name)}</a>
      </p>
      {isPlanner ? <WorkingTimeForm time={time} /> : <p>{words.notPlanner}</p>}
    </article>
  );
}

function WorkingTimeForm({ time }: { time: ReadWorkingTime }) {
  const service = useService();
  const words = PLANNING_WORDS;
  const correction = useCorrection<WorkingDraft, ReadWorkingTime>({
    method: 'PUT',
    path: `/people/${time.personId}/working-time`,
    source: time,
    draftOf: workingDraft,
    pose: (draft) => poseWorking(draft, words),
    readAgain: () => readTime(service, time.personId),
  });
  const { typed, failed, save } = correction;
  const form = useFocusOnWrong<HTMLFormElement>(failed);
  const { draft, give } = typed;
  const wrong = (field: string) => failed?.sentenceFor(field);
  const line = (name: 'skills' | 'startLatitude' | 'startLongitude') => (
    <TextField
      label={words.of[name]}
      hint={words.hints[name]}
      autocomplete="off"
      value={draft[name]}
      onValue={(value) => give({ [name]: value })}
      error={wrong(`/${name}`)}
    />
  );
  return (
    <form onSubmit={save} noValidate ref={form}>
      {typed.source.version === 0 && <p class="notice">{words.nothingSaid}</p>}
      <WeekHours draft={draft} give={give} wrong={wrong} />
      <DaysOff personId={time.personId} draft={draft} give={give} wrong={wrong} />
      <div class="narrow">{line('skills')}</div>
      <div class="fields">
        {line('startLatitude')}
        {line('startLongitude')}
      </div>
      <TickField
        label={words.of.endsAtStart}
        value={draft.endsAtStart}
        onValue={(endsAtStart) => give({ endsAtStart })}
      />
      <CorrectionEnd
        correction={correction}
        shown={['/hours', '/daysOff', '/skills', '/startLatitude', '/startLongitude']}
        nameOf={(field) => words.of[field]}
      />
    </form>
  );
}

export interface WorkingFieldsProps {
  draft: WorkingDraft;
  give: (more: Partial<WorkingDraft>) => void;
  wrong: (field: string) => string | undefined;
}

function WeekHours({ draft, give, wrong }: WorkingFieldsProps) {
  const words = PLANNING_WORDS;
  const typed = typedWeekdays(draft);
  const at = (day: number, end: 'from' | 'until') => wrong(`/hours/${typed.indexOf(day)}/${end}`);
  return (
    <fieldset>
      <legend>{words.of.hours}</legend>
      <p class="hint">{words.hoursHint}</p>
      {[1, 2, 3, 4, 5, 6, 7].map((day) => (
        <div class="pair week-hours" key={day}>
          {(['from', 'until'] as const).map((end) => (
            <TextField
              key={end}
              label={words[end](weekdayName(day))}
              autocomplete="off"
              type="time"
              value={draft[end][day] ?? ''}
              onValue={(time) => give({ [end]: { ...draft[end], [day]: time } })}
              error={at(day, end)}
            />
          ))}
        </div>
      ))}
      <button type="button" class="small" onClick={() => give(asOnMonday(draft))}>
        {words.asMonday}
      </button>
    </fieldset>
  );
}
