import { useId } from 'preact/hooks';
import { FUNCTIONS_AS_ASKED } from '#app/words/index.js';
import { PAGE_WORDS } from '../parts/language.js';
import { OFFICE_WORDS } from './own-words.js';
import { FieldComplaint } from '../parts/text-field.js';
import type { ToldFunction } from '../parts/wire.js';

interface TriedFieldProps {
  value: ToldFunction | undefined;
  onValue: (value: ToldFunction) => void;
  error: string | undefined;
}

/** What was tried when the rooms were silent. */
export function TriedField({ value, onValue, error }: TriedFieldProps) {
  const id = useId();
  return (
    <fieldset aria-describedby={error && `${id}-error`}>
      <legend>{OFFICE_WORDS.report.whatTried}</legend>
      <FieldComplaint id={`${id}-error`} reason={error} />
      <div class="choices">
        {FUNCTIONS_AS_ASKED.map((name) => (
          <label key={name} class="choice">
            <input
              type="radio"
              name={id}
              checked={value === name}
              data-wrong={error !== undefined}
              onChange={() => onValue(name)}
            />
            <span>{PAGE_WORDS.functions[name].tried}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
