import { useRef, useState } from 'preact/hooks';
import { ChooseField, TicksField } from '../../parts/choose-field.js';
import { Failure } from '../../parts/failure.js';
import { FailureLine } from '../../parts/failure-line.js';
import { PAGE_FORMATS } from '../../parts/language.js';
import { TextField } from '../../parts/text-field.js';
import { shortDay } from '../../parts/time-words.js';
import { useFocusOnWrong } from '../../parts/use-focus.js';
import type { OwedQuarterVisit, ReadWorkingTime } from '../../parts/wire.js';
import { useDraft } from '../use-draft.js';
import { placeInWords, type NameOf } from './quarter-sentences.js';
import {
  isWanting,
  keyOfVisit,
  NOTHING_WANTED,
  type QuarterPlace,
  settledWant,
  type Want,
  type WantKind,
} from './quarter-want.js';
import type { UsedQuarter } from './use-quarter.js';
import { QUARTER_WORDS } from '../words/words.js';

interface WantFormProps {
  visit: OwedQuarterVisit;
  /** Undefined: it is left. */
  place: QuarterPlace | undefined;
  from: string;
  technicians: readonly ReadWorkingTime[];
  nameOf: NameOf;
  quarter: UsedQuarter;
}

function useWant({ visit, place, from, quarter }: WantFormProps) {
  const key = keyOfVisit(visit);
  const kept = quarter.wants[key] ?? NOTHING_WANTED;
  const { draft: want, give, settle } = useDraft<Want>(`wanted of ${key} from ${from}`, kept);
  const typed = useRef(want);
  typed.current = want;
  const [lacking, setLacking] = useState<Failure>();
  const keep = (event: Event) => {
    event.preventDefault();
    const next = { ...settledWant(want, place), reason: want.reason.trim() };
    const missing = missingOf(next);
    setLacking(missing);
    if (missing !== undefined) return;
    quarter.want(visit, next, () => {
      // What was typed on meanwhile stays.
      if (typed.current === want) settle(next);
    });
  };
  const failed = lacking ?? quarter.planFailure;
  const wrong = (field: string) =>
    lacking?.sentenceFor(field) ?? quarter.planFailure?.sentenceFor(`/${key}${field}`);
  return { key, want, give, keep, failed, wrong };
}

function isAbout(failure: Failure | undefined, key: string): boolean {
  return failure?.errors.some(({ field }) => field.startsWith(`/${key}`)) ?? false;
}

/** What somebody has to say before it is asked for. */
function missingOf(want: Want): Failure | undefined {
  const { noReason, noPlace } = QUARTER_WORDS;
  const errors = [];
  if (want.kind === 'move' && want.on === '' && want.technicianId === '') {
    errors.push({ field: '/on', reason: noPlace });
  }
  if (isWanting(want) && want.reason.trim() === '') {
    errors.push({ field: '/reason', reason: noReason });
  }
  return errors.length === 0 ? undefined : new Failure(422, errors[0]?.reason ?? '', errors);
}

/** It stays, goes elsewhere, or is not in the plan, and why; the weeks are planned anew with it. */
export function WantForm(props: WantFormProps) {
  const { place, nameOf, technicians, quarter } = props;
  const { key, want, give, keep, failed, wrong } = useWant(props);
  const form = useFocusOnWrong<HTMLFormElement>(failed);
  const words = QUARTER_WORDS;
  const skills = [...new Set(technicians.flatMap((one) => one.skills))].sort();
  const ruledOut = [...want.notOn.map((day) => shortDay(day)), ...want.notBy.map(nameOf)];
  return (
    <form onSubmit={keep} noValidate ref={form}>
      <h3>{words.want}</h3>
      <ChooseField
        label={words.wantLabel}
        value={want.kind}
        onValue={(kind) => give({ kind: kind as WantKind })}
        choices={choicesOf(place, nameOf)}
        error={want.kind === 'move' ? undefined : (wrong('/on') ?? wrong('/pinnedTo'))}
      />
      {want.kind === 'move' && <Elsewhere {...props} want={want} give={give} wrong={wrong} />}
      {ruledOut.length > 0 && (
        <p class="hint">
          {words.ruledOut(PAGE_FORMATS.and(ruledOut))}{' '}
          <button type="button" class="small" onClick={() => give({ notOn: [], notBy: [] })}>
            {words.allowAgain}
          </button>
        </p>
      )}
      {skills.length > 0 && (
        <TicksField
          legend={words.skills}
          choices={skills.map((name) => ({ id: name, name }))}
          chosen={want.skills}
          onChosen={(chosen) => give({ skills: chosen })}
          error={wrong('/skills')}
        />
      )}
      <TextField
        label={words.reason}
        autocomplete="off"
        maxLength={500}
        value={want.reason}
        onValue={(reason) => give({ reason })}
        error={wrong('/reason')}
      />
      <FailureLine
        failure={isAbout(quarter.planFailure, key) ? quarter.planFailure : undefined}
        fields={['/on', '/pinnedTo', '/skills', '/reason'].map((field) => `/${key}${field}`)}
      />
      <button type="submit" class="main" aria-disabled={quarter.isPlanning}>
        {quarter.isPlanning ? words.keeping : words.keep}
      </button>
    </form>
  );
}

interface ElsewhereProps extends WantFormProps {
  want: Want;
  give: (more: Partial<Want>) => void;
  wrong: (field: string) => string | undefined;
}

function Elsewhere({ technicians, want, give, wrong }: ElsewhereProps) {
  const words = QUARTER_WORDS;
  return (
    <>
      <TextField
        label={words.toOn}
        hint={words.toOnHint}
        type="date"
        autocomplete="off"
        value={want.on}
        onValue={(on) => give({ on })}
        error={wrong('/on')}
      />
      <ChooseField
        label={words.toWho}
        value={want.technicianId}
        onValue={(technicianId) => give({ technicianId })}
        choices={[
          { value: '', words: words.anybody },
          ...technicians.map(({ personId, name }) => ({ value: personId, words: name })),
        ]}
        error={wrong('/pinnedTo')}
      />
    </>
  );
}

function choicesOf(place: QuarterPlace | undefined, nameOf: NameOf) {
  const { best, stay, move, left, ...not } = QUARTER_WORDS.wants;
  const here =
    place === undefined
      ? []
      : [
          { value: 'stay', words: stay(placeInWords(place, nameOf)) },
          { value: 'not-then', words: not['not-then'](shortDay(place.on)) },
          { value: 'not-who', words: not['not-who'](nameOf(place.technicianId)) },
        ];
  return [
    { value: 'best', words: best },
    ...here,
    { value: 'move', words: move },
    { value: 'left', words: left },
  ];
}
