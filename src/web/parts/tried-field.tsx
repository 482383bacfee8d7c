import { useId } from 'preact/hooks';
import { FUNCTIONS_AS_ASKED } from '#app/words/index.js';
import { PAGE_WORDS } from './language.js';
import { FieldComplaint } from './text-field.js';
import type { ToldFunction } from './wire.js';

interface TriedFieldProps {
  legend: string;
  value: ToldFunction | undefined;
  onValue: (value: ToldFunction) => void;
  error: string | undefined;
}

/** What was tried when the rooms were silent. */
export function TriedField({ legend, value, onValue, error }: TriedFieldProps) {
  const id = useId();
  return (
    <fieldset aria-describedby={error && `${id}-error`}>
      <legend>{legend}</legend>
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
