import { FieldComplaint, TextField } from '../../parts/text-field.js';
import { TROUBLES, WEEKDAYS } from './contract-draft.js';
import type { ContractFieldsProps } from './contract-form.js';
import { TROUBLE_WORDS, weekdayName } from './contract-sentences.js';
import { CONTRACT_WORDS } from '../words/words.js';

/** What is promised by how far trouble goes, and when the hours count. */
export function ContractTimes(props: ContractFieldsProps) {
  const { draft, give, wrong } = props;
  const words = CONTRACT_WORDS.form;
  return (
    <>
      <fieldset>
        <legend>{words.promises}</legend>
        {TROUBLES.map((trouble) => (
          <div class="pair" key={trouble}>
            <TextField
              label={words.responseOf(TROUBLE_WORDS[trouble])}
              autocomplete="off"
              value={draft.response[trouble] ?? ''}
              onValue={(hours) => give({ response: { ...draft.response, [trouble]: hours } })}
              error={wrong(`response ${trouble}`)}
            />
            <TextField
              label={words.restoreOf(TROUBLE_WORDS[trouble])}
              autocomplete="off"
              value={draft.restore[trouble] ?? ''}
              onValue={(hours) => give({ restore: { ...draft.restore, [trouble]: hours } })}
              error={wrong(`restore ${trouble}`)}
            />
          </div>
        ))}
      </fieldset>
      <CoverageHours {...props} />
    </>
  );
}

function CoverageHours({ draft, give, wrong }: ContractFieldsProps) {
  const words = CONTRACT_WORDS.form;
  if (draft.keepsHours) return <p>{words.hoursKept}</p>;
  const isNever = WEEKDAYS.every((day) => !draft.hoursFrom[day] && !draft.hoursUntil[day]);
  return (
    <fieldset tabIndex={-1} data-wrong={isNever && wrong('/coverage/windows') !== undefined}>
      <legend>{words.hours}</legend>
      {isNever && <FieldComplaint id="never-open" reason={wrong('/coverage/windows')} />}
      {WEEKDAYS.map((day) => (
        <div class="pair" key={day}>
          <TextField
            label={words.fromOf(weekdayName(day))}
            autocomplete="off"
            type="time"
            value={draft.hoursFrom[day] ?? ''}
            onValue={(time) => give({ hoursFrom: { ...draft.hoursFrom, [day]: time } })}
            error={wrong(`from ${day}`)}
          />
          <TextField
            label={words.untilOf(weekdayName(day))}
            autocomplete="off"
            type="time"
            value={draft.hoursUntil[day] ?? ''}
            onValue={(time) => give({ hoursUntil: { ...draft.hoursUntil, [day]: time } })}
            error={wrong(`until ${day}`)}
          />
        </div>
      ))}
    </fieldset>
  );
}
