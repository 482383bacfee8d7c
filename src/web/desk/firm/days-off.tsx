import { FieldComplaint, TextField } from '../../parts/text-field.js';
import { shortDay } from '../../parts/time-words.js';
import { useDraft } from '../use-draft.js';
import { daysFromTo, daysOffOf, runsOf } from './planning-draft.js';
import type { WorkingFieldsProps } from './working-time-page.js';
import { PLANNING_WORDS } from '../words/words.js';

interface DaysOffProps extends WorkingFieldsProps {
  personId: string;
}

/** Days on which somebody is not there: those that follow one another are one line. */
export function DaysOff({ personId, draft, give, wrong }: DaysOffProps) {
  const words = PLANNING_WORDS;
  const change = (days: readonly string[], value: true | undefined) => {
    const changed = Object.fromEntries(days.map((day) => [day, value]));
    give({ daysOff: { ...draft.daysOff, ...changed } });
  };
  const complaint = wrong('/daysOff');
  return (
    <fieldset tabIndex={-1} data-wrong={complaint !== undefined}>
      <legend>{words.of.daysOff}</legend>
      <FieldComplaint id="days-off" reason={complaint} />
      <ul>
        {runsOf(daysOffOf(draft)).map(({ first, last }) => {
          const run =
            first === last ? shortDay(first) : words.fromTo(shortDay(first), shortDay(last));
          return (
            <li key={first}>
              {run}{' '}
              <button
                type="button"
                class="small"
                onClick={() => change(daysFromTo(first, last), undefined)}
              >
                {words.remove}
                <span class="unseen"> {run}</span>
              </button>
            </li>
          );
        })}
      </ul>
      <AddDaysOff personId={personId} onDays={(days) => change(days, true)} />
    </fieldset>
  );
}

interface AddDaysOffProps {
  personId: string;
  onDays: (days: readonly string[]) => void;
}

function AddDaysOff({ personId, onDays }: AddDaysOffProps) {
  const words = PLANNING_WORDS;
  const nothing = { first: '', last: '' };
  const { draft, give, settle } = useDraft(`days off of ${personId}`, nothing);
  const days = draft.first === '' ? [] : daysFromTo(draft.first, draft.last || draft.first);
  const add = () => {
    if (days.length === 0) return;
    onDays(days);
    settle();
  };
  const line = (name: 'first' | 'last', label: string) => (
    <TextField
      label={label}
      autocomplete="off"
      type="date"
      value={draft[name]}
      onValue={(day) => give({ [name]: day })}
    />
  );
  return (
    <div class="add-line">
      {line('first', words.offFrom)}
      {line('last', words.offTo)}
      <button type="button" class="small" aria-disabled={days.length === 0} onClick={add}>
        {words.addDays}
      </button>
    </div>
  );
}
